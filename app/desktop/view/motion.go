package view

import (
	"math"
	"time"

	"fyne.io/fyne/v2"
)

// move starts or stops the swing of the mode shape.
func (p *Picture) move() {
	swings := p.swings()
	switch {
	case swings && p.motion == nil:
		period := float64(time.Second) / swingRate
		p.motion = fyne.NewAnimation(time.Duration(period), p.swung)
		p.motion.Curve = fyne.AnimationLinear
		p.motion.RepeatCount = fyne.AnimationRepeatForever
		p.motion.Start()
	case !swings && p.motion != nil:
		p.motion.Stop()
		p.motion, p.shown.swing = nil, 0
		p.painter.ask()
	}
}

// swung is told how much of a period has passed.
func (p *Picture) swung(share float32) {
	if !p.swings() {
		p.move()
		return
	}
	p.shown.swing = math.Sin(2 * math.Pi * float64(share))
	p.painter.ask()
}
