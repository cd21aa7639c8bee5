package solid

import (
	"math"
	"runtime"
	"sync/atomic"
)

// ticker passes progress on, one call at a time and never backwards.
type ticker struct {
	call func(done, total int)
	busy atomic.Bool
	most int
}

const tickTotal = 1000

// tick passes on the share of the whole work that is done.
func (t *ticker) tick(done float64) {
	if t.call == nil || !t.busy.CompareAndSwap(false, true) {
		return
	}
	defer t.busy.Store(false)
	if n := int(done * tickTotal); n > t.most {
		t.most = n
		t.call(n, tickTotal)
	}
}

// stop waits for a call that is under way and lets no other begin.
func (t *ticker) stop() {
	for t.call != nil && !t.busy.CompareAndSwap(false, true) {
		runtime.Gosched()
	}
}

// tick passes on the share of the grid at hand that is done. Nobody knows how
// many grids it will take: each counts for three quarters of what is left.
func (m *maker) tick(done float64) {
	left := math.Pow(0.25, float64(m.report.Rounds-1))
	m.ticks.tick(1 - left + 0.75*left*done)
}
