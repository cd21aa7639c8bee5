package verdicts

import (
	"fmt"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"mastwright/app/desktop/look"
	"mastwright/design/sizing/certainty"
)

// Doubt is how sure a verdict is, as far as that was asked.
type Doubt struct {
	Busy    bool
	Share   float64           // of the work that is done
	Chance  *certainty.Chance // nil: not asked, or not yet known
	Samples int               // designs that were drawn for it
}

// doubt asks how sure a verdict is, and says so: a bar in three parts, the shares in words, and what the verdict hangs on.
type doubt struct {
	widget.BaseWidget

	story Doubt
	ask   *look.Chip
	onAsk func(asked bool)
}

func newDoubt() *doubt {
	d := &doubt{onAsk: func(bool) {}}
	d.ask = look.NewChip("Ask", func() { d.onAsk(!d.story.Busy) })
	d.ExtendBaseWidget(d)
	return d
}

func (d *doubt) set(story Doubt) {
	d.story = story
	word := "Ask"
	if story.Busy {
		word = "Stop"
	}
	d.ask.SetText(word)
	d.ask.Hidden = story.Chance != nil
	d.Refresh()
}

// said are the words: the shares, and what is to be said of them.
func (d *doubt) said() (shares, rest string) {
	s := d.story
	switch {
	case s.Busy:
		return "", fmt.Sprintf("Designs are being drawn and checked: %.0f %%", 100*s.Share)
	case s.Chance == nil:
		return "", "Draws 200 designs from the spread of plastic, leads and assumptions, and checks each."
	case !s.Chance.Known:
		return "", "This check has no data."
	}
	c := s.Chance
	shares = fmt.Sprintf("Passes in %s, marginal in %s, fails in %s", percent(c.Pass.Value), percent(c.Marginal.Value), percent(c.Fail.Value))
	rest = fmt.Sprintf("Of %d designs drawn from what is not known for sure; with 95 %% confidence %.0f to %.0f %% pass.", s.Samples,
		math.Floor(100*c.Pass.Low), math.Ceil(100*c.Pass.High))
	if len(c.Influences) > 0 && max(c.Pass.Value, c.Marginal.Value, c.Fail.Value) < 1 {
		rest += " " + Sentence("hangs most on: "+c.Influences[0].Name)
	}
	return shares, rest
}

// percent is a share in hundredths; what is not quite none or all does not read so.
func percent(share float64) string {
	switch p := 100 * share; {
	case p > 0 && p < 1:
		return "< 1 %"
	case p > 99 && p < 100:
		return "> 99 %"
	default:
		return fmt.Sprintf("%.0f %%", p)
	}
}

const shareBar = 14 // with its air

// HeightFor is that of the bar and the words.
func (d *doubt) HeightFor(width float32) float32 { return d.write(nil, width) }

func (d *doubt) MinSize() fyne.Size {
	const least = 200
	return fyne.NewSize(least, d.HeightFor(max(d.Size().Width, least)))
}

// CreateRenderer is the toolkit's.
func (d *doubt) CreateRenderer() fyne.WidgetRenderer {
	s := &sheet{widget: d, least: d.MinSize}
	s.draw = func(size fyne.Size) { d.write(s, size.Width) }
	return s
}

// write writes on a sheet, or only measures, and returns the height.
func (d *doubt) write(s *sheet, width float32) float32 {
	shares, rest := d.said()
	room, y := width, float32(0)
	if !d.ask.Hidden {
		room -= tryWidth + 10
		if s != nil {
			s.put(d.ask, width-tryWidth, 3, tryWidth, tryHeight)
		}
	}
	if c := d.story.Chance; c != nil && c.Known {
		if s != nil {
			x := float32(0)
			for _, part := range []struct {
				role  look.Role
				share float64
			}{{look.PassBar, c.Pass.Value}, {look.MarginalBar, c.Marginal.Value}, {look.FailBar, c.Fail.Value}} {
				long := look.Whole(d, (width-2)*float32(part.share))
				if part.share > 0 {
					s.box(part.role, x, 2, max(1, long), 7)
					x += max(1, long) + 1
				}
			}
		}
		y += shareBar
	}
	lines := func(text string, font look.Font, role look.Role, pitch float32) {
		if text == "" {
			return
		}
		for _, line := range look.Wrapped(text, font, room) {
			if s != nil {
				s.words(line, font, role, fyne.TextAlignLeading, 0, y, pitch)
			}
			y += pitch
		}
	}
	lines(shares, look.Body, look.Ink, 17)
	lines(rest, look.Caption, look.Second, 16)
	if !d.ask.Hidden {
		y = max(y, tryHeight+6)
	}
	return y
}
