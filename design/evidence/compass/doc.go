// Package compass reads the tests of a mounted compass: the field against the current of the motors, the headings shown with
// the nose in known directions, and the three axes while the aircraft is turned through all attitudes by hand.
//
// Everything is SI: tesla, ampere, radian, metre; records of the axes come in the unit they were written in, which is told or
// guessed from the earth's field at the site. The compass's own axes are x along its arrow, y to the right of it and z out of
// its underside. Headings and turns run clockwise seen from above. Confidence is 95 %. Records that cannot answer are refused
// with a bench.Refusal; no result holds NaN or infinity.
package compass
