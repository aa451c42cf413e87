// Package meshtest is a simulated network of mesh.Peers in simulated time, for
// tests. It delays, loses, repeats and mangles frames, cuts the network in
// two, crashes devices at any moment with torn or lost writes, fills disks,
// puts devices to sleep, sets clocks, copies folders and removes devices, all
// from one seed: the same seed gives the same trace byte for byte.
//
// While it runs it checks that nothing is shown as saved that is not on the
// disk, that nobody is believed to have stored what they have not, and that
// nothing leaves a device before its sync. At the end it checks that every
// device has the same state, that folding in another order gives it again,
// that every entry is vouched for and chained to the one before, that nothing
// above a cut counts, and that nothing shown as safe is missing.
//
// Each of these promises is a Check. A Bug switches on one deliberate mistake; a
// test shows that every check finds one, and every mistake is found by the check
// that is meant for it.
package meshtest
