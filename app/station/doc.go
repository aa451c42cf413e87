// Package station is one device at work: it owns the Peer, the board of
// requests and the ledger of kits in one loop. Taps go in as acts, facts come
// in from other devices, and whoever shows something looks at all three
// together between two steps.
//
// The way through the house is: tap → station → Peer → disk → peers → their
// disk → receipt → fold → look → rows → screen. An act is answered when its
// entry is on the disk, or when it is clear that it is not; nothing may be
// shown as saved before.
//
// The station has no sockets and no files of its own: it is given a Store and
// a Network.
package station
