package place

import (
	"context"
	"math/bits"
	"slices"
)

// key is what is to come after some scenes: those left, who of the people seen is still to come back, and where the kit
// is. Two ways that lead to one key have the same future, whatever they left out and in whatever order they came.
type key struct {
	left, here uint64
	mode       int // what the last scene left behind; anywhere while modes are relaxed, nowhere before the first scene
}

const (
	anywhere = -1
	nowhere  = -2
)

// state is a key with one cell for each number of meals taken (row) and each slot at which the crew could be free there.
type state struct {
	key
	rate  int64   // cost of one slot in which nothing is shot
	idle  int64   // the same, or 0 before the day has begun
	rows  int     // numbers of meals that have cells
	lo    int     // slot of the first cell of a row
	width int     // cells in a row
	from  int     // live cells of all rows are in [from, to), counted from lo
	to    int     //
	ready int     // the latest slot from which the scenes left can be placed
	need  int     // slots that the scenes left take, and the packing up
	wrap  int     // the earliest wrap, by the scenes left
	bound int64   // no placement through this state loses less
	g     []int64 // by row and cell: the least that can have been lost so far, inf where the cell is dead
	h     []int64 // by row and cell: the least that is still to be lost
	call  []int16 // by cell: the latest that the call can have been, -1 if the cell is not reached
	edges []edge
}

// edge is one scene placed next.
type edge struct {
	to    int32
	scene int16
	step
}

// table holds every state that a better placement may pass through, layer by layer: layer n has the states with n scenes
// left. A table without spaces lets every move be as short as it can be; one with spaces is exact but for the meal rule
// and the longest day, of which it demands only what follows from the latest possible call.
type table struct {
	m      *model
	moded  bool   // modes are told apart
	calls  Span   // the calls that it covers
	prior  *table // a table that covers more and tells apart less: its h is the estimate; nil for the first table
	best   int64  // cells that cannot lead to less are dead
	states []state
	layers [][]int32
	index  map[key]int32
	cells  int     // made so far
	room   int     // the most there may be
	rest   []int64 // scratch: what is at least still to come, by cell
	row    []int64 // scratch of that
}

// newTable makes a table with nothing but its starts. The calls are half-open.
func newTable(m *model, starts []start, prior *table, calls Span, best int64, room int) *table {
	t := &table{
		m: m, moded: prior != nil, calls: calls, prior: prior, best: best, room: room,
		layers: make([][]int32, len(m.scenes)+1), index: map[key]int32{},
	}
	for _, s := range starts {
		ready := m.ready(s.place, false)
		lo, hi := calls.From+m.p.Prepare, min(ready, calls.To-1+m.p.Prepare)
		if hi < lo {
			continue
		}
		st := &t.states[t.at(key{left: s.place, mode: nowhere}, ready)]
		st.lo, st.width = lo, hi-lo+1
		st.rows, st.idle, st.rate = 1, 0, m.p.DayCost
		st.g, st.call = make([]int64, st.width), make([]int16, st.width)
		for x := range st.g {
			st.g[x] = s.leave + m.p.DayCost*int64(m.p.Prepare)
			st.call[x] = int16(st.lo + x - m.p.Prepare)
		}
		t.cells += st.width
	}
	return t
}

// at makes a state, still without cells.
func (t *table) at(k key, ready int) int32 {
	i := int32(len(t.states))
	t.index[k] = i
	rate := t.m.p.DayCost + t.m.wait(k.here)
	t.states = append(t.states, state{
		key: k, rate: rate, idle: rate, rows: t.m.meals + 1, lo: MaxSlots, bound: inf,
		ready: ready, need: t.m.length(k.left) + t.m.p.PackUp, wrap: t.m.earliestWrap(k.left),
	})
	n := bits.OnesCount64(k.left)
	t.layers[n] = append(t.layers[n], i)
	return i
}

// forward fills g and call from the starts on. It is false when the context ended or the table grew too big; frontier is
// then a bound on every placement, from the last layer that is whole, else inf.
func (t *table) forward(ctx context.Context) (whole bool, frontier int64) {
	for n := len(t.layers) - 1; n >= 0; n-- {
		for i, at := range t.layers[n] {
			if i%256 == 0 && ctx.Err() != nil {
				return false, 0
			}
			t.settle(&t.states[at])
		}
		if !t.grow(ctx, n) {
			return false, t.frontier(n)
		}
		for _, at := range t.layers[n] {
			t.push(&t.states[at])
		}
	}
	return true, inf
}

// frontier is the least bound of the states of a settled layer and of the starts below it.
func (t *table) frontier(n int) int64 {
	least := inf
	for _, at := range t.layers[n] {
		least = min(least, t.states[at].bound)
	}
	for _, layer := range t.layers[:n] {
		for _, at := range layer {
			if st := &t.states[at]; st.mode == nowhere {
				t.settle(st)
				least = min(least, st.bound)
			}
		}
	}
	return least
}

// settle closes a state's g and call under idling and taking a meal, and kills the cells that cannot lead to a better
// placement. All its predecessors have been pushed.
func (t *table) settle(s *state) {
	m := t.m
	length, cost := m.p.Meal.Length, m.p.DayCost*int64(m.p.Meal.Length)
	s.from, s.to, s.bound = s.width, 0, inf
	for x := 1; x < s.width; x++ {
		s.call[x] = max(s.call[x], s.call[x-1])
	}
	if !t.estimate(s) {
		for x := range s.g {
			s.g[x] = inf
		}
		return
	}
	for row := range s.rows {
		rest := t.rest[row*s.width : (row+1)*s.width]
		g := s.g[row*s.width : (row+1)*s.width]
		stretch := (row+1)*m.within + row*length
		for x := range g {
			if x > 0 {
				g[x] = min(g[x], g[x-1]+s.idle)
			}
			if row > 0 && x >= length && s.lo+x >= m.mealEnd(s.wrap, row) {
				g[x] = min(g[x], s.g[(row-1)*s.width+x-length]+cost)
			}
			now, call := s.lo+x, int(s.call[x])
			if g[x]+rest[x] >= t.best || now-call > stretch || max(s.wrap, now+s.need)-call > m.p.Longest {
				g[x] = inf
				continue
			}
			s.from, s.to = min(s.from, x), max(s.to, x+1)
			s.bound = min(s.bound, g[x]+rest[x])
		}
	}
}

// grow makes the edges of a layer's states, and the cells of the layer below. It is false when the table grew too big.
func (t *table) grow(ctx context.Context, n int) bool {
	for i, at := range t.layers[n] {
		if i%256 == 0 && ctx.Err() != nil {
			return false
		}
		if t.states[at].from < t.states[at].to {
			t.addEdges(at)
		}
		if t.size() > t.room {
			return false
		}
	}
	if n == 0 {
		return true
	}
	cells, slots := 0, 0
	for _, at := range t.layers[n-1] {
		if s := &t.states[at]; s.g == nil {
			s.width = max(0, s.ready-s.lo+1)
			cells, slots = cells+s.width*s.rows, slots+s.width
		}
	}
	if t.cells += cells; t.size() > t.room {
		return false
	}
	t.allot(n-1, make([]int64, cells), make([]int16, slots))
	return true
}

// size is the cells made so far, with the states counted for what they take.
func (t *table) size() int { return t.cells + stateCells*len(t.m.scenes)*len(t.states) }

// allot gives every state of a layer its part of the cells.
func (t *table) allot(n int, g []int64, call []int16) {
	for i := range g {
		g[i] = inf
	}
	for i := range call {
		call[i] = -1
	}
	for _, at := range t.layers[n] {
		s := &t.states[at]
		if s.g != nil {
			continue
		}
		size := s.width * s.rows
		s.g, g = g[:size:size], g[size:]
		s.call, call = call[:s.width:s.width], call[s.width:]
	}
}

// addEdges finds the states that one more scene leads to, and the first slot at which each is reached.
func (t *table) addEdges(at int32) {
	m, s := t.m, t.states[at]
	for j := range each(s.left) {
		scene := &m.scenes[j]
		left := s.left &^ (1 << j)
		if scene.before&left != 0 {
			continue
		}
		step, mode := t.step(s.mode, j)
		start := scene.next[min(s.lo+s.from+int(step.lead), m.p.Slots)]
		end := start + m.p.Scenes[j].Shoot
		if start == m.p.Slots {
			continue
		}
		k := key{left: left, here: (s.here | scene.who) & m.cast(left), mode: mode}
		to, known := t.index[k]
		ready := 0
		if known {
			ready = t.states[to].ready
		} else {
			ready = m.ready(left, true)
		}
		if end > ready {
			continue
		}
		if !known {
			to = t.at(k, ready)
		}
		t.states[to].lo = min(t.states[to].lo, end)
		s.edges = append(s.edges, edge{to: to, scene: int16(j), step: step})
	}
	t.states[at].edges = s.edges
}

// step is what lies before a scene and the mode that it leaves, as far as this table tells modes apart.
func (t *table) step(from, scene int) (step, int) {
	mode := anywhere
	if t.moded {
		mode = t.m.scenes[scene].mode
	}
	switch from {
	case nowhere:
		return step{0, int16(t.m.p.Scenes[scene].Setup)}, mode
	case anywhere:
		return t.m.scenes[scene].enter, mode
	}
	return t.m.modes[from].steps[scene], mode
}

// cost is that of an edge from a state but for its light.
func (t *table) cost(s *state, e edge) int64 {
	return t.m.shooting(int(e.scene), s.here) + int64(e.lead)*s.rate + int64(e.move)*t.m.p.MoveCost
}

// push offers g and call of a settled state to the states after it.
func (t *table) push(s *state) {
	for _, e := range s.edges {
		to, cost := &t.states[e.to], t.cost(s, e)
		light := t.m.scenes[e.scene].light
		offset := int(e.lead)
		shift := s.lo + offset + t.m.p.Scenes[e.scene].Shoot - to.lo // from a cell here to the cell there
		last := min(s.to, to.width-shift, len(light)-s.lo-offset)
		for x := s.from; x < last; x++ {
			c := light[s.lo+x+offset]
			if c == Forbidden {
				continue
			}
			to.call[x+shift] = max(to.call[x+shift], s.call[x])
			for row := range s.rows {
				cell := row*to.width + x + shift
				to.g[cell] = min(to.g[cell], s.g[row*s.width+x]+cost+c)
			}
		}
	}
}

// backward fills h, from the states with no scene left up, kills the cells whose g + h is no better than best, and
// returns the least g + h of a start: no placement of those that the table covers loses less, unless it is best itself.
func (t *table) backward(ctx context.Context) (bound int64, whole bool) {
	bound = t.best
	for _, layer := range t.layers {
		for i, at := range layer {
			if i%256 == 0 && ctx.Err() != nil {
				return 0, false
			}
			s := &t.states[at]
			s.h = make([]int64, len(s.g))
			for x := range s.h {
				s.h[x] = inf
			}
			t.pull(s)
			t.close(s)
			if s.mode == nowhere {
				bound = min(bound, s.bound)
			}
		}
	}
	t.prior = nil // its work is done
	return bound, true
}

// alive is the calls that a better placement can still have.
func (t *table) alive() Span {
	calls := Span{From: t.m.p.Slots}
	for i := range t.states {
		s := &t.states[i]
		if s.mode != nowhere {
			continue
		}
		for x, g := range s.g {
			if call := s.lo + x - t.m.p.Prepare; g < inf {
				calls = Span{min(calls.From, call), max(calls.To, call+1)}
			}
		}
	}
	return calls
}

// pull takes into h the least of the states after this one.
func (t *table) pull(s *state) {
	for _, e := range s.edges {
		to, cost := &t.states[e.to], t.cost(s, e)
		light := t.m.scenes[e.scene].light
		offset := int(e.lead)
		shift := s.lo + offset + t.m.p.Scenes[e.scene].Shoot - to.lo
		last := min(s.to, to.width-shift, len(light)-s.lo-offset)
		for x := s.from; x < last; x++ {
			c := light[s.lo+x+offset]
			if c == Forbidden {
				continue
			}
			for row := range s.rows {
				cell := row*s.width + x
				s.h[cell] = min(s.h[cell], to.h[row*to.width+x+shift]+cost+c)
			}
		}
	}
}

// close closes h under idling and taking a meal, ends the day where no scene is left, and kills cells.
func (t *table) close(s *state) {
	m := t.m
	length, cost := m.p.Meal.Length, m.p.DayCost*int64(m.p.Meal.Length)
	s.bound = inf
	for row := s.rows - 1; row >= 0; row-- {
		stretch := (row+1)*m.within + row*length
		for x := s.to - 1; x >= s.from; x-- {
			cell := row*s.width + x
			h := s.h[cell]
			if s.left == 0 && s.lo+x+m.p.PackUp-int(s.call[x]) <= stretch {
				h = m.p.DayCost*int64(m.p.PackUp) + m.overtime(s.lo+x+m.p.PackUp-int(s.call[x]))
			}
			if x+1 < s.width {
				h = min(h, s.h[cell+1]+s.idle)
			}
			if row+1 < s.rows && x+length < s.width && s.lo+x+length >= m.mealEnd(s.wrap, row+1) {
				h = min(h, s.h[cell+s.width+length]+cost)
			}
			if s.g[cell]+h >= t.best {
				s.g[cell], s.h[cell] = inf, inf
				continue
			}
			s.h[cell] = h
			s.bound = min(s.bound, s.g[cell]+h)
		}
	}
}

// estimate puts into rest, for each cell of a state, the least that is still to be lost: from the prior table, or else from
// the parts, each for itself, and from who has to stay. It is false when the parts alone say that no cell leads to less than
// best.
func (t *table) estimate(s *state) bool {
	if t.prior != nil {
		return t.priorEstimate(s)
	}
	m := t.m
	t.row = append(t.row[:0], slices.Repeat([]int64{m.p.DayCost * int64(m.p.PackUp)}, s.width)...)
	for i := range m.parts {
		p := &m.parts[i]
		for x, rest := range p.must[p.subset(s.left)][s.lo : s.lo+s.width] {
			t.row[x] = min(inf, t.row[x]+rest)
		}
	}
	least, alive := inf, false
	for x, rest := range t.row {
		for row := range s.rows {
			least = min(least, s.g[row*s.width+x])
		}
		alive = alive || least+rest < t.best
	}
	if !alive {
		return false
	}
	t.rest = append(t.rest[:0], make([]int64, s.rows*s.width)...)
	m.addStay(t.rest, s.width, s.left, s.here, s.lo, m.meals)
	rivals := m.rivals(s.left, s.here)
	for i, stay := range t.rest {
		t.rest[i] = max(stay, rivals) + t.row[i%s.width]
	}
	return true
}

// priorEstimate copies what the prior table knows of the same cells.
func (t *table) priorEstimate(s *state) bool {
	k := s.key
	if k.mode != nowhere && !t.prior.moded {
		k.mode = anywhere
	}
	at, known := t.prior.index[k]
	if !known {
		return false
	}
	from := &t.prior.states[at]
	t.rest = append(t.rest[:0], slices.Repeat([]int64{inf}, s.rows*s.width)...)
	shift := s.lo - from.lo
	for row := range min(s.rows, from.rows) {
		for x := max(0, -shift); x < min(s.width, from.width-shift); x++ {
			t.rest[row*s.width+x] = from.h[row*from.width+x+shift]
		}
	}
	return true
}

// toCome is h of a state's cell by number of meals and slot, inf if it is dead or not there.
func (t *table) toCome(at int32, row, slot int) int64 {
	s := &t.states[at]
	if x := slot - s.lo; 0 <= x && x < s.width && row < s.rows {
		return s.h[row*s.width+x]
	}
	return inf
}
