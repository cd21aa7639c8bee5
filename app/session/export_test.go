package session

import (
	"context"

	"mastwright/design"
	"mastwright/design/parts"
	"mastwright/design/review"
)

// Engines stand in for the real ones.
type Engines struct {
	Review  func(*design.Document) (review.Result, []design.Problem)
	Mesh    func(context.Context) error
	Compare func(*design.Document) ([]review.Candidate, []design.Problem)
}

// NewWith is New with other engines; a nil one answers at once with nothing.
func NewWith(o Options, e Engines) *Session {
	own := engines{
		review: func(*design.Document) (review.Result, []design.Problem) { return review.Result{}, nil },
		build:  func(*design.Document) (parts.Assembly, []design.Problem) { return parts.Assembly{}, nil },
		mesh:   func(context.Context, parts.Assembly) ([]Piece, error) { return nil, nil },
		compare: func(context.Context, *design.Document) ([]review.Candidate, []design.Problem, error) {
			return nil, nil, nil
		},
	}
	if e.Review != nil {
		own.review = e.Review
	}
	if e.Mesh != nil {
		own.mesh = func(ctx context.Context, _ parts.Assembly) ([]Piece, error) { return nil, e.Mesh(ctx) }
	}
	if e.Compare != nil {
		own.compare = func(_ context.Context, doc *design.Document) ([]review.Candidate, []design.Problem, error) {
			list, problems := e.Compare(doc)
			return list, problems, nil
		}
	}
	return start(o, own)
}
