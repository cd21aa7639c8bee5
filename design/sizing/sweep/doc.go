// Package sweep reviews a design over a range of one field or two, for looking at what is traded against what: every figure of every
// check over the field, with its limits and the rotors' bands beside it, and the points at which no mass can be saved without coming
// closer to a limit.
package sweep
