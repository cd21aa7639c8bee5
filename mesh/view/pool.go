package view

import (
	"sync"
	"sync/atomic"
)

// pool runs one phase of a picture on several goroutines. They end with the
// phase; the runtime keeps them for the next one.
type pool struct {
	workers int
	owner   *Renderer
	phase   phase
	next    atomic.Int64
	jobs    int64
	wait    sync.WaitGroup
	help    func()
}

type phase uint8

const (
	phasePlace phase = iota
	phasePaint
	phaseInk
)

func (p *pool) run(r *Renderer, what phase, jobs int) {
	if p.help == nil {
		p.help = func() { defer p.wait.Done(); p.work() }
	}
	p.owner, p.phase, p.jobs = r, what, int64(jobs)
	p.next.Store(0)
	helpers := min(p.workers, jobs) - 1
	for range helpers {
		p.wait.Add(1)
		go p.help()
	}
	p.work()
	p.wait.Wait()
}

func (p *pool) work() {
	for {
		k := p.next.Add(1) - 1
		if k >= p.jobs {
			return
		}
		switch p.phase {
		case phasePlace:
			p.owner.placeChunk(p.owner.chunks[k])
		case phasePaint:
			p.owner.paint(int(k))
		case phaseInk:
			p.owner.ink(int(k))
		}
	}
}
