// Package sizing turns verdicts round: it finds the heights at which a design passes, the smallest change that repairs a verdict, and
// the lightest design that passes everything. It asks the review itself each time and knows no formula of its own, so that what it
// promises is what a check of the changed file says.
//
// # Values
//
// Every field moves on a lattice of values that a builder would type: 0.5 mm of height, 0.1 mm of a section, whole lines of wall, whole
// layers of thickness, the choices of a list, the materials of the library. A crossing is bracketed by a scan and closed by halving
// on that lattice, so the value reported was itself reviewed; nothing is rounded afterwards.
//
// # Method of the lightest design
//
// The checks jump (a rotor band is met or it is not), their gradients do not exist at the worst of several figures, and choices mix with
// lengths. Methods that follow gradients or a simplex of real numbers promise nothing here and would end on values nobody types. So
// every combination of choices is a start of its own, and from each start the ordered fields are searched by a pattern search on the
// lattice (Hooke & Jeeves 1961; Torczon 1997 for its convergence under halved steps): first for the least excess over the limits, then
// for the least mass at the fewest marginals, with steps halved down to one lattice step. Where single fields are stuck on a limit, pairs are
// moved against each other, one lighter and one that pays for it, since a limit is a ridge that no single field can follow; of the pairs
// those are tried that promise most by what a step of each field alone does to every check.
//
// Reviews are what costs. So all starts are reviewed as they are, those of each style that promise most are searched coarsely, the best two of
// these to the end, and from where the best ended the other materials and orientations that promise more there: what is promised is the
// mass by the part of its room that the hardest structural check uses. A design is reviewed in three stages, and one that its mass or a
// quick check rules out costs no structural review. The result is a design that no step of one field makes lighter; that it is the
// lightest of all is not proved.
//
// Results do not depend on the number of processors: starts are independent, and within one the order is fixed.
package sizing
