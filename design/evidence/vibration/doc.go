// Package vibration reads frequencies out of records: the ringing of a tapped mount and the rotor lines of a steady hover.
//
// Frequencies are in Hz, times in seconds from the start of the record, damping is a part of critical (zeta). Levels are in
// the record's own unit unless said otherwise. A record that cannot answer is refused with an error that says why and what to
// do; nothing is returned half sure.
package vibration
