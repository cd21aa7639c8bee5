package verdicts

import (
	"fmt"
	"math"

	"fyne.io/fyne/v2"

	"mastwright/app/desktop/look"
	"mastwright/design/review"
)

// Measures of the list, in pixels. The lanes are what the other columns leave.
const (
	listMargin   = 12
	nameLeft     = 30
	lanesLeft    = 112
	lanesRight   = 132 // from the right edge, as all below
	figureRight  = 66
	wordLeft     = 58
	footerHeight = 67
	rowLeast     = 24 // what a pointer can hit
	rowGood      = 27
	rowMost      = 36
	namedFrom    = 390 // width from which the lanes are named
)

// rows is where the list's parts stand, in pixels from its top.
type rows struct {
	captions, top, height, footer float32
	named, footed                 bool
}

// places shares the height: the captions and the footer go first where rows would become too low.
func (l *List) places(size fyne.Size, notice float32) rows {
	n := float32(max(len(l.verdicts), 1))
	p := rows{captions: 30 + notice, top: 52 + notice, footed: true, named: true}
	share := func(rest float32) float32 {
		return float32(math.Floor(float64((size.Height - p.top - 16 - rest) / n)))
	}
	if p.height = share(footerHeight); p.height < rowGood {
		p.footed = false
		p.height = share(0)
	}
	if p.height < rowGood {
		p.named, p.top = false, 32+notice
		p.height = share(0)
	}
	p.height = min(max(p.height, rowLeast), rowMost)
	p.footer = size.Height - footerHeight
	return p
}

func (l *List) draw(s *sheet, size fyne.Size) {
	var notice []string
	if l.notice != "" {
		notice = look.Wrapped(l.notice, look.Body, size.Width-nameLeft-listMargin)
	}
	high := float32(0)
	if len(notice) > 0 {
		high = float32(len(notice))*look.Body.Pitch() + 10
		s.mark(look.Fails, 14, 9, 9, look.Body.Pitch())
		for i, line := range notice {
			s.words(line, look.Body, look.FailWord, fyne.TextAlignLeading, nameLeft, 9+float32(i)*look.Body.Pitch(), look.Body.Pitch())
		}
	}
	l.place = l.places(size, high)
	l.drawHead(s, size, high)
	for i, r := range l.Rows() {
		l.drawRow(s, size, i, r)
	}
	n := float32(len(l.verdicts))
	s.put(l.lanes, lanesLeft-zoneMargin, l.place.top, size.Width-lanesLeft-lanesRight+2*zoneMargin, n*l.place.height+16)
	l.underHand(s, max(l.at, 0), 0, l.place.top+float32(max(l.at, 0))*l.place.height, size.Width, l.place.height)
	if l.place.footed {
		l.drawFoot(s, size)
	}
}

func (l *List) inked(role look.Role) look.Role {
	if l.stale {
		return look.Third
	}
	return role
}

func (l *List) drawHead(s *sheet, size fyne.Size, notice float32) {
	right := size.Width - listMargin
	s.words(fmt.Sprintf("%d checks", len(l.verdicts)), look.Strong, look.Ink, fyne.TextAlignLeading, listMargin, 8+notice, 20)
	s.words(l.tally, look.Caption, l.inked(look.Second), fyne.TextAlignTrailing, right, 8+notice, 20)
	if !l.place.named {
		return
	}
	caption := func(text string, align fyne.TextAlign, x float32) {
		s.words(text, look.Caption, look.Second, align, x, l.place.captions, 18)
	}
	caption("figure", fyne.TextAlignTrailing, size.Width-figureRight)
	if size.Width < namedFrom {
		return
	}
	zone := size.Width - lanesLeft - lanesRight
	caption("pass", fyne.TextAlignCenter, lanesLeft+zone*passShare/2)
	caption("marginal", fyne.TextAlignCenter, lanesLeft+zone*(passShare+marginalShare/2))
	caption("fail", fyne.TextAlignCenter, lanesLeft+zone*(1-failShare/2))
}

func (l *List) drawRow(s *sheet, size fyne.Size, i int, r Row) {
	top, height := l.place.top+float32(i)*l.place.height, l.place.height
	if r.Picked {
		s.box(look.ActSoft, 0, top, size.Width, height)
		s.box(look.Act, 0, top, 3, height)
	}
	font := look.Body
	if r.Picked || r.State == review.Fail {
		font = look.Strong
	}
	s.mark(look.SignOf(r.State), 14, 9, top, height)
	s.words(r.Name, font, look.Ink, fyne.TextAlignLeading, nameLeft, top, height)
	figure := look.Ink
	if r.State == review.NoData {
		figure = look.NoDataWord
	}
	s.words(r.Figure, look.Body, l.inked(figure), fyne.TextAlignTrailing, size.Width-figureRight, top, height)
	s.words(r.Word, look.Body, l.inked(look.WordRole(r.State)), fyne.TextAlignLeading, size.Width-wordLeft, top, height)
}

func (l *List) drawFoot(s *sheet, size fyne.Size) {
	top := l.place.footer
	s.box(look.Seam, listMargin, top, size.Width-2*listMargin, 1)
	for i, line := range []string{
		"Left of the thin line is good; right of the plumb line fails.",
		"The whisker is the spread of the material and the leads.",
		"Estimates for model aircraft; no proof of airworthiness.",
	} {
		y := top + 6 + float32(i)*17
		if i == 2 {
			y += 4
		}
		s.words(line, look.Caption, look.Second, fyne.TextAlignLeading, listMargin, y, 16)
	}
}

// drawLanes draws all bars and the two lines in one picture, so that the lines hang unbroken.
func (l *List) drawLanes(k *ink, width, height float32) {
	zone := width - 2*zoneMargin
	for i, b := range l.bars {
		ground := look.Panel
		if i == l.at {
			ground = look.ActSoft
		}
		k.drawBar(b, zoneMargin, (float32(i)+.5)*l.place.height, zone, ground)
	}
	k.drawPlumb(zoneMargin, zone, 0, float32(len(l.bars))*l.place.height, 4)
}
