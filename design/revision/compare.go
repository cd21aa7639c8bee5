package revision

import (
	"context"
	"fmt"
	"math"
	"strings"

	"mastwright/design"
	"mastwright/design/review"
)

// Comparison is what two designs differ in, and what that does.
type Comparison struct {
	Changes []Change
	Moved   []Move  // verdicts whose state or deciding figure differ, in the order of the checks
	Mass    float64 // g, of the first
	Added   float64 // g, what the second weighs more
}

// Move is a verdict before and after.
type Move struct {
	Check, Title  string
	From, To      review.State
	Before, After review.Figure // the deciding ones; zero without data
}

// Unbuildable is the error of a design that cannot be reviewed.
type Unbuildable struct {
	Second   bool // of the two designs
	Problems []design.Problem
}

// Error is a line for each problem.
func (u Unbuildable) Error() string {
	lines := make([]string, len(u.Problems))
	for i, p := range u.Problems {
		lines[i] = p.String()
	}
	return strings.Join(lines, "\n")
}

// Compare compares two designs and their reviews. The error is the context's or Unbuildable.
func Compare(ctx context.Context, a, b *design.Document) (Comparison, error) {
	var shop review.Workshop
	var ids []string
	for _, c := range review.Checks() {
		ids = append(ids, c.ID)
	}
	var results [2]review.Result
	for i, doc := range [2]*design.Document{a, b} {
		r, problems, err := shop.Judge(ctx, doc, ids...)
		if err != nil {
			return Comparison{}, err
		}
		if len(problems) > 0 {
			return Comparison{}, Unbuildable{i == 1, problems}
		}
		results[i] = r
	}
	c := Comparison{Changes: Diff(a, b), Mass: results[0].Mass, Added: results[1].Mass - results[0].Mass}
	for _, v := range results[1].Verdicts {
		was, ok := results[0].Verdict(v.ID)
		if !ok {
			return Comparison{}, fmt.Errorf("the check %s is missing from a review", v.ID)
		}
		if was.State != v.State || was.Figure.Name != v.Figure.Name || !near(was.Figure.Value, v.Figure.Value) {
			c.Moved = append(c.Moved, Move{Check: v.ID, Title: v.Title, From: was.State, To: v.State, Before: was.Figure, After: v.Figure})
		}
	}
	return c, nil
}

// near is equal but for the last digits of a computation.
func near(a, b float64) bool {
	return a == b || math.Abs(a-b) <= 1e-9*math.Max(math.Abs(a), math.Abs(b))
}
