//go:build race

package cli_test

// raced is whether the race detector watches, which makes meshing ten times slower.
const raced = true
