package place

import (
	"context"
	"fmt"
	"testing"
	"time"
)

func TestZZ(t *testing.T) {
	for _, n := range []int{10, 14, 20, 40} {
		for seed := range uint64(4) {
			for i, day := range []func(uint64, int) Problem{autumnDay, windowedDay} {
				p := day(seed, n)
				r2 := newRun(context.Background(), &p)
				t4 := time.Now()
				firstPlans(r2.ctx, r2.m, 12, r2.found)
				r2.raise(r2.m.simpleBound())
				t5 := time.Now()
				f := r2.loss()
				r2.prove()
				t6 := time.Now()
				fmt.Printf("%d n%d/%d first %v %d best %d bound %d placed %d| prove %v cells %d tries %d\n", i, n, seed, t5.Sub(t4), f, r2.loss(), r2.bound, len(r2.best.Order), t6.Sub(t5), allCells-r2.cells, allTries-r2.tries)
			}
		}
	}
}
