package vibration

import "fmt"

// Why is the kind of a refusal.
type Why int

// The kinds of refusals.
const (
	TooShort  Why = iota // the record, or what follows the taps
	TooSlow              // sampled below what the frequency needs
	Nothing              // nothing stands above the noise
	Ambiguous            // two answers are as good
)

// Refusal is the error for a record that cannot answer: a sentence with the reason and what to do.
type Refusal struct {
	Why  Why
	Text string
}

// Error is the sentence.
func (r Refusal) Error() string { return r.Text }

func refuse(why Why, format string, a ...any) error { return Refusal{why, fmt.Sprintf(format, a...)} }
