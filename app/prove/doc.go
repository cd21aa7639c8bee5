// Package prove is the bench between a design and its tests: it hands a test the design's predictions, holds what was
// measured against them, and says what the design becomes with it.
//
// Each test is one function that takes the document and what was measured, and returns a Result. It changes nothing: the
// findings of a result are entered by whoever asked, with design.Document.Use. A measurement that cannot answer, and a
// design that predicts nothing, come back as a Refusal. Predictions are those of the design without the earlier measurement
// of the same thing, so that a test repeated gives the same factor again.
package prove
