package papers

import (
	"bytes"
	"sync"
	"time"

	"eavelight/plan"
)

// press prints the sheets of a set. Most of the time of a print goes into its type, so that what lies in the folder and goes with a
// mail too is printed once, and held until the mail takes it.
type press struct {
	size plan.PaperSize
	made time.Time

	mutex sync.Mutex
	held  map[string][]byte // by whose they are, and of which day
}

func newPress(size plan.PaperSize, made time.Time) *press {
	return &press{size: size, made: made, held: map[string][]byte{}}
}

func (p *press) print(s Sheet) ([]byte, error) {
	var out bytes.Buffer
	err := s.PDF(&out, p.size, p.made)
	return out.Bytes(), err
}

// hold prints a sheet and holds the print.
func (p *press) hold(key string, s Sheet) ([]byte, error) {
	out, err := p.print(s)
	p.mutex.Lock()
	defer p.mutex.Unlock()
	p.held[key] = out
	return out, err
}

// take hands out a print that is held, or makes it.
func (p *press) take(key string, sheet func() Sheet) ([]byte, error) {
	p.mutex.Lock()
	out, ok := p.held[key]
	delete(p.held, key)
	p.mutex.Unlock()
	if ok {
		return out, nil
	}
	return p.print(sheet())
}
