package place

import (
	"context"
	"slices"
)

// pricedRounds is how often the prices are set anew.
const pricedRounds = 60

// priced is a bound on every plan of the days. If each day could have every scene for a price, and what no day takes had it
// too, the least of all days together, less the prices paid twice, is no more than the best plan: in that, each scene is on
// one day at most. The prices are raised where nobody takes a scene and lowered where several do (Held and Karp 1971, cited from memory).
func (p Days) priced(ctx context.Context, best int64) int64 {
	scenes := p.Days[0].Scenes
	price, bound := make([]int64, len(scenes)), int64(0)
	models := make([]*model, len(p.Days))
	for d := range p.Days {
		models[d] = newModel(&p.Days[d])
	}
	for j, sc := range scenes {
		price[j] = sc.Leave
		for _, m := range models {
			if s := &m.scenes[j]; s.last >= 0 {
				for _, c := range s.light {
					if c != Forbidden {
						price[j] = min(price[j], c+m.p.DayCost*int64(s.dur))
					}
				}
			}
		}
	}
	for round := 0; round < pricedRounds && ctx.Err() == nil; round++ {
		total, taken := int64(0), make([]int, len(scenes))
		for _, c := range price {
			total += c
		}
		sum := total
		for _, m := range models {
			least, set := m.pricedDay(price)
			sum += least - total
			for j := range each(set) {
				taken[j]++
			}
		}
		bound = max(bound, min(sum, best))
		if !adjust(price, scenes, taken, (best-sum)/int64(round/8+1)) {
			break
		}
	}
	return bound
}

// adjust moves the prices a step along 1 less the days that take each scene; false if none moves.
func adjust(price []int64, scenes []Scene, taken []int, gap int64) bool {
	norm, moved := 0, false
	for _, n := range taken {
		norm += (1 - n) * (1 - n)
	}
	for j, n := range taken {
		if norm == 0 {
			return false
		}
		next := min(max(price[j]+int64(1-n)*gap/int64(norm), 0), scenes[j].Leave)
		moved, price[j] = moved || next != price[j], next
	}
	return moved
}

// pricedDay is simpleBound with other prices for leaving out, and the scenes that it takes. An empty day costs the prices.
func (m *model) pricedDay(price []int64) (least int64, taken uint64) {
	room := min(m.p.Longest, m.p.Latest-m.p.Earliest) - m.p.Prepare - m.p.PackUp
	all := int64(0)
	for _, c := range price {
		all += c
	}
	if room < 0 {
		return all, 0
	}
	row := make([]pick, room+1)
	for i := range m.parts {
		row = m.parts[i].picks(row, price, m.p.Earliest+m.p.Prepare)
	}
	best := row[0]
	for _, c := range row {
		if c.cost < best.cost {
			best = c
		}
	}
	shut := int64(0)
	for j := range m.scenes {
		if m.open&(1<<j) == 0 {
			shut += price[j]
		}
	}
	least = best.cost + shut + m.p.DayCost*int64(m.p.Prepare+m.p.PackUp)
	if least >= all {
		return all, 0
	}
	return least, best.set
}

// pick is a choice of scenes and what it costs.
type pick struct {
	cost int64
	set  uint64
}

// picks adds the scenes of a part to the cheapest choices by the slots that they take; a scene not taken costs its price.
func (p *part) picks(row []pick, price []int64, from int) []pick {
	next := slices.Repeat([]pick{{cost: inf}}, len(row))
	for set, must := range p.must {
		cost := must[from]
		if cost >= inf {
			continue
		}
		for b, j := range p.scenes {
			if set&(1<<b) == 0 {
				cost += price[j]
			}
		}
		whole := p.whole(set)
		for taken := p.short[set]; taken < len(row); taken++ {
			if before := row[taken-p.short[set]]; before.cost+cost < next[taken].cost {
				next[taken] = pick{before.cost + cost, before.set | whole}
			}
		}
	}
	return next
}
