package session

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"runtime"
	"time"

	"mastwright/design"
	"mastwright/design/review"
	"mastwright/design/sizing"
	"mastwright/design/sizing/certainty"
)

// quiet is how long a document must have stood since it was checked before what takes seconds begins.
const quiet = 250 * time.Millisecond

// Heights is what the checks say of every height a document may have.
type Heights struct {
	Window  sizing.Window
	Current bool // nothing but the height has changed since
}

// Advice is what would repair the check that was asked about, in the document of the serial.
type Advice struct {
	sizing.Advice
	Serial uint64
}

// Chances is how sure the verdicts of a document are.
type Chances struct {
	certainty.Result
	Serial uint64
}

// sizers are what the slow studies ask.
type sizers struct {
	heights func(context.Context, *design.Document, sizing.HeightOptions) (sizing.Window, error)
	repairs func(context.Context, *design.Document, sizing.RepairOptions) ([]sizing.Advice, error)
	chances func(context.Context, *design.Document, certainty.Options) (certainty.Result, error)
}

func realSizers() sizers { return sizers{sizing.Heights, sizing.Repairs, certainty.Study} }

// studies are the slow questions about the document as it stands. Each is answered in the background once the document is checked
// and quiet; a newer edit gives it up.
type studies struct {
	shop *review.Workshop // what they share

	heights, repairs, chances study

	measuring bool   // the heights are wanted
	family    string // the document without its height: what the heights depend on
	advising  string // id of the check whose repairs are wanted
	doubted   uint64 // the document whose certainty is wanted

	window   *sizing.Window
	windowOf string // family
	advice   *Advice
	sought   float64 // share of the repairs' search that is done
	sure     *Chances
	share    float64 // of the certainty that is done
}

// study is one of them: the latest question wins.
type study struct {
	asked  string // what is being answered, or has been; "" nothing
	busy   bool
	cancel context.CancelFunc
}

// drop gives up what is being answered and forgets what has been.
func (y *study) drop() {
	if y.cancel != nil {
		y.cancel()
	}
	*y = study{}
}

// Heights asks for what the checks say of every height to follow the document, or no longer.
func (s *Session) Heights(on bool) { s.want(func(y *studies) { y.measuring = on }) }

// Advise asks for the repairs of a check to follow the document; "" for none. A check that passes has none.
func (s *Session) Advise(check string) { s.want(func(y *studies) { y.advising = check }) }

// Doubt asks how sure the verdicts of the document as it stands are. The answer goes with the next edit.
func (s *Session) Doubt() { s.want(func(y *studies) { y.doubted, y.share = s.serial, 0 }) }

// Trust gives up what Doubt asked.
func (s *Session) Trust() { s.want(func(y *studies) { y.doubted = 0 }) }

func (s *Session) want(change func(*studies)) {
	s.mu.Lock()
	change(&s.studies)
	s.study()
	s.publish()
	s.mu.Unlock()
	s.tell()
}

// Lightest looks for the lightest design that passes, beside everything else; the document stays as it is. It returns when all is
// done: call it beside the window's thread. Progress is called from one goroutine at a time; nil for nobody.
func (s *Session) Lightest(ctx context.Context, progress func(done, total int)) (found sizing.Sized, err error) {
	doc := s.Snapshot().Document
	problems := guarded("sizing", func() []design.Problem {
		found, err = sizing.Lightest(ctx, doc, sizing.LightestOptions{Options: s.sizingOptions(progress)})
		return nil
	})
	if len(problems) > 0 {
		return sizing.Sized{}, errors.New(problems[0].Text)
	}
	return found, err
}

// Opening looks at every height of the document as it stands and, where none passes, for the smallest other change after which one does;
// the document stays as it is. It returns when all is done: call it beside the window's thread. Progress is told first how far the heights
// are, then the changes, from one goroutine at a time; nil for nobody.
func (s *Session) Opening(ctx context.Context, progress func(done, total int)) (found sizing.Window, err error) {
	doc := s.Snapshot().Document
	problems := guarded("sizing", func() []design.Problem {
		found, err = s.sizers.heights(ctx, doc, sizing.HeightOptions{Options: s.sizingOptions(progress), Opening: true})
		return nil
	})
	if len(problems) > 0 {
		return sizing.Window{}, errors.New(problems[0].Text)
	}
	return found, err
}

// sizingOptions leave a processor to the checks and to the window.
func (s *Session) sizingOptions(progress func(done, total int)) sizing.Options {
	return sizing.Options{Workshop: s.studies.shop, Workers: workers(), Progress: progress}
}

func workers() int { return max(1, runtime.NumCPU()-1) }

// familyOf tells documents apart that differ in more than their height; the session is locked.
func (s *Session) familyOf(doc *design.Document) string {
	low, high := span(doc)
	text := doc.Clone()
	if err := text.Set("mast.height", "100 mm"); err != nil {
		return ""
	}
	var b bytes.Buffer
	fmt.Fprintln(&b, s.opened, low, high)
	if err := design.Encode(&b, text); err != nil {
		return ""
	}
	return b.String()
}

// span is the range of heights that is looked at, in mm: stretched by a document beyond it.
func span(doc *design.Document) (low, high float64) {
	height := doc.Mast.Height.Millimetres()
	if height <= 0 {
		return 30, 180
	}
	return min(30, height), max(180, height)
}

// study begins, goes on with or gives up each study, as the document and what is asked want it; the session is locked.
func (s *Session) study() {
	y, doc := &s.studies, s.history.now.doc
	ready := s.found.checked == s.serial && len(s.found.problems) == 0 && s.found.review != nil
	serial := fmt.Sprint(s.serial)

	heights := ""
	if y.measuring && (ready || y.heights.asked == y.family) {
		heights = y.family
	}
	s.pursue(&y.heights, heights, quiet, func(ctx context.Context) (func(), error) {
		w, err := s.sizers.heights(ctx, doc, sizing.HeightOptions{Options: s.sizingOptions(nil)})
		return func() { y.window, y.windowOf = &w, heights }, err
	})

	repairs := ""
	if ready && y.advising != "" && wanting(s.found.review.Result, y.advising) {
		repairs = serial + y.advising
	}
	if y.advice != nil && y.advice.Check != y.advising {
		y.advice = nil
	}
	check, of := y.advising, s.serial
	if y.repairs.asked != repairs {
		y.sought = 0
	}
	s.pursue(&y.repairs, repairs, quiet, func(ctx context.Context) (func(), error) {
		all, err := s.sizers.repairs(ctx, doc, sizing.RepairOptions{Options: s.sizingOptions(nil), Checks: []string{check}, Partly: s.seeking(ctx, of)})
		advice := &Advice{Serial: of, Advice: sizing.Advice{Check: check}}
		if len(all) > 0 {
			advice.Advice = all[0]
		}
		return func() { y.advice = advice }, err
	})

	chances := ""
	if ready && y.doubted == s.serial {
		chances = serial
	}
	if y.sure != nil && y.sure.Serial != s.serial {
		y.sure = nil
	}
	s.pursue(&y.chances, chances, 0, func(ctx context.Context) (func(), error) {
		r, err := s.sizers.chances(ctx, doc, certainty.Options{Workshop: y.shop, Workers: workers(), Progress: s.doubting(ctx)})
		return func() { y.sure = &Chances{r, of} }, err
	})
}

// wanting reports whether a check is worth a repair.
func wanting(r review.Result, check string) bool {
	v, known := r.Verdict(check)
	return known && (v.State == review.Marginal || v.State == review.Fail)
}

// seeking follows the search for repairs in steps of a twentieth, and shows what it has found as it comes.
func (s *Session) seeking(ctx context.Context, of uint64) func(check string, found []sizing.Repair, done, total int) {
	known := 0
	return func(check string, found []sizing.Repair, done, total int) {
		share := float64(20*done/max(1, total)) / 20
		s.mu.Lock()
		y := &s.studies
		news := ctx.Err() == nil && (share != y.sought || len(found) != known)
		if news {
			y.sought = share
			if len(found) > 0 {
				known = len(found)
				y.advice = &Advice{Serial: of, Advice: sizing.Advice{Check: check, State: found[0].From, Repairs: found}}
			}
			s.publish()
		}
		s.mu.Unlock()
		if news {
			s.tell()
		}
	}
}

// doubting follows the certainty in steps of a tenth.
func (s *Session) doubting(ctx context.Context) func(done, total int) {
	return func(done, total int) {
		share := float64(10*done/max(1, total)) / 10
		s.mu.Lock()
		news := ctx.Err() == nil && share != s.studies.share
		if news {
			s.studies.share = share
			s.publish()
		}
		s.mu.Unlock()
		if news {
			s.tell()
		}
	}
}

// pursue answers a question, unless it is being answered already or has been; the session is locked.
func (s *Session) pursue(y *study, question string, wait time.Duration, answer func(context.Context) (keep func(), err error)) {
	if y.asked == question {
		return
	}
	y.drop()
	if question == "" {
		return
	}
	ctx, cancel := context.WithCancel(s.ctx)
	*y = study{question, true, cancel}
	go func() {
		defer cancel()
		select {
		case <-ctx.Done():
			return
		case <-time.After(wait):
		}
		var keep func()
		var err error
		problems := guarded("sizing", func() []design.Problem { keep, err = answer(ctx); return nil })
		s.mu.Lock()
		if ctx.Err() != nil {
			s.mu.Unlock()
			return
		}
		if y.busy = false; err == nil && len(problems) == 0 {
			keep()
		}
		s.publish()
		s.mu.Unlock()
		s.tell()
	}()
}

// studied writes into a snapshot what the studies have found; the session is locked.
func (s *Session) studied(n *Snapshot) {
	y := &s.studies
	if y.measuring && y.window != nil {
		n.Heights = &Heights{Window: *y.window, Current: y.windowOf == y.family}
	}
	n.Advice, n.Advising, n.Sought = y.advice, y.repairs.busy, y.sought
	n.Chances, n.Doubting, n.Doubted = y.sure, y.chances.busy, y.share
}

// restudy begins the studies of another design anew; the session is locked.
func (s *Session) restudy() {
	y := &s.studies
	for _, one := range []*study{&y.heights, &y.repairs, &y.chances} {
		one.drop()
	}
	s.studies = studies{shop: new(review.Workshop), measuring: y.measuring, advising: y.advising}
}
