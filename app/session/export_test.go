package session

import (
	"context"

	"mastwright/design"
	"mastwright/design/parts"
	"mastwright/design/review"
	"mastwright/design/sizing"
	"mastwright/design/sizing/certainty"
)

// Engines stand in for the real ones.
type Engines struct {
	Review  func(*design.Document) (review.Result, []design.Problem)
	Mesh    func(context.Context) error
	Compare func(*design.Document) ([]review.Candidate, []design.Problem)
	Heights func(context.Context, *design.Document) (sizing.Window, error)
	Repairs func(context.Context, *design.Document, sizing.RepairOptions) ([]sizing.Advice, error)
	Chances func(context.Context, func(done, total int)) (certainty.Result, error)
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
	z := sizers{
		heights: func(context.Context, *design.Document, sizing.HeightOptions) (sizing.Window, error) {
			return sizing.Window{}, nil
		},
		repairs: func(context.Context, *design.Document, sizing.RepairOptions) ([]sizing.Advice, error) {
			return nil, nil
		},
		chances: func(context.Context, *design.Document, certainty.Options) (certainty.Result, error) {
			return certainty.Result{}, nil
		},
	}
	if e.Heights != nil {
		z.heights = func(ctx context.Context, doc *design.Document, _ sizing.HeightOptions) (sizing.Window, error) {
			return e.Heights(ctx, doc)
		}
	}
	if e.Repairs != nil {
		z.repairs = func(ctx context.Context, doc *design.Document, o sizing.RepairOptions) ([]sizing.Advice, error) {
			return e.Repairs(ctx, doc, o)
		}
	}
	if e.Chances != nil {
		z.chances = func(ctx context.Context, _ *design.Document, o certainty.Options) (certainty.Result, error) {
			return e.Chances(ctx, o.Progress)
		}
	}
	return start(o, own, z)
}
