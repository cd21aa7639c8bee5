// Package certainty says how sure the verdicts on a design are: what it is made of and what was assumed about it have a spread, and
// each check passes, is marginal or fails in a share of it.
//
// # Model
//
// A property with a low, a typical and a high figure has the triangular distribution with its mode at the typical figure and its ends
// at the other two; common practice where no more than three figures are known. What is a judgement within a factor, low and high
// being the typical figure over and times it, has the same distribution in its logarithm. Properties are independent of each other;
// the figures of one property of a material, such as its modulus in layer, across and in shear, move together.
//
// The properties are sampled together by a Latin hypercube (McKay, Beckman & Conover 1979, Technometrics 21, 239): each property's
// distribution is cut into as many equally likely strata as there are samples, and each stratum is drawn from exactly once. Every sample
// is a design of its own that the review judges, without spread.
//
// A share of the samples is given with Wilson's interval at 95 % (Wilson 1927, J. Am. Stat. Assoc. 22, 209). The interval is that of independent
// samples; those of a hypercube scatter less, so it is on the safe side.
//
// Which property a verdict hangs on is told by Spearman's rank correlation between the property and the place of the verdict
// on its scale.
package certainty
