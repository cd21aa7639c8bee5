// Package bench reads the tests that need no electronics: weighing the parts, measuring them with a caliper, hanging masses on
// the mount, and counting satellites with each device off and on. It also holds what those and other tests share: the straight
// line with its confidence, an estimate, a refusal, and what to suspect where measured and predicted differ.
//
// Everything is SI: kilograms, metres, newtons, radians; signal strengths are in dB-Hz. Forces and movements of the hang test
// are along the load, positive where it pulls. Confidence is 95 % everywhere. Measurements that cannot answer are refused with
// a Refusal; no result holds NaN or infinity.
package bench
