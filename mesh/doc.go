// Package mesh is the log that the devices of a unit share, and the talk about
// it. Everything here is pure: no files, no sockets, no clock. A Peer takes
// events and returns effects; mesh/disk and mesh/lan carry them out, and
// mesh/meshtest does so in simulated time.
//
// # How to read this package
//
// ids, vocabulary and text are the words. codec is the one byte form, reader a
// quick way to read it. entry and kinds are what is written. feed, members and
// facts are what is known. step lists events and effects; peer and the peer_
// files are the machine: write (the way to the disk), receive (what comes in),
// sync (who lacks what), receipt (who has stored what), link (is anybody
// there), load (the start). state is what devices compare.
//
// # Codec
//
// Everything is msgpack, of which only this much is allowed: arrays, byte
// strings (bin), text (str: UTF-8, NFC, no control characters), integers in
// their shortest form, booleans. No maps, nils, floats, times, extensions,
// 32-bit lengths. A struct is an array of its fields in order. Bytes that do
// not decode and encode again to the same bytes are refused. Bounds: DepthMax,
// ListLenMax, FrameLenMax.
//
// # Entry, version 1
//
//	array of 10
//	  0  version      uint    1
//	  1  group        bin 32  zero in the founding entry, whose hash is the group's id
//	  2  author       bin 32  Ed25519 public key
//	  3  incarnation  bin 8   random
//	  4  sequence     uint    from 1
//	  5  before       bin 32  hash of the entry before in this feed; zero for sequence 1
//	  6  turn         uint    1 + the highest turn held when writing, at most 2⁵³
//	  7  wall         uint    milliseconds since 1970 UTC by the author's clock
//	  8  tap          bin 8   random
//	  9  parts        array of 1 to 8, each an array of 2: kind uint, body bin
//
// At most EntryLenMax bytes. A body is itself a msgpack array, opaque here
// unless its kind is 0x00xx. The bytes of an entry are kept and forwarded
// unchanged for ever, also when parts are of a kind that is not known.
//
//	hash      = SHA-256("lintel entry 1" ‖ bytes)
//	signature = Ed25519("lintel signature 1" ‖ group ‖ author ‖ incarnation ‖ sequence ‖ hash)
//	receipt   = Ed25519("lintel receipt 1" ‖ group ‖ receiver ‖ author ‖ incarnation ‖ sequence ‖ hash)
//
// Integers in signed and hashed text have 8 bytes, big-endian. A signature
// vouches for its entry and, through the chain of hashes, for all before it in
// the feed. It travels and is stored beside entries. Of entries written in one
// disk write (a run: at most RunLenMax, ItemsMax) the last one is signed; entries with
// founding, admission or removal always are.
//
// A part is named by author ‖ tap ‖ number (Ref, 41 bytes), never by position.
// The same name with the same body counts once; with another body it is a
// conflict, and the one of lower Order is used.
//
// # Kinds of this package
//
// Fields in the order of the array. Ref is bin 41, Key bin 32, Hash bin 32,
// Tap and Incarnation bin 8. A number is given once; its fields never change.
//
//	0x0001 Founded        founder Key, unit label, nonce bin 16
//	0x0002 Admitted       key Key, name label
//	0x0003 Removed        key Key, cuts array of [incarnation, sequence uint], why label
//	0x0004 FeedBefore     incarnation, sequence uint, hash Hash, why uint 1–6
//	0x0005 Clock          peer Key, offset int (ms), within uint (± ms), cause uint 1–3
//	0x0006 Checkpoint     before Ref, heads array of Head, fold version uint, state Hash
//	0x0007 EnteredAgain   original Ref, hash Hash
//	0x0008 PairingClosed  failures uint, for uint (s)
//	0x0009 DeviceLine     replaces array of Ref, key Key, name label
//	0x000a Archived       checkpoint Ref, SHA-256 Hash, length uint (bytes), where label
//	0x0010 By             role id, tag label, happened uint (ms; 0: when recorded), way uint 0–3
//
// Head is an array of 3: feed bin 40 (author ‖ incarnation), sequence uint,
// first 8 bytes of the entry's hash. Kinds 0x01xx are drawn in the requests
// package, 0x02xx in kits.
//
// # Frames between admitted devices
//
// One byte of kind, then an array; at most FrameLenMax. mesh/lan puts a length
// before it. T travels on the tap stream, C on the catch-up stream.
//
//	 1 Items      T C  array of [entry bin, signature bin 0 or 64]; one feed, consecutive, the last signed
//	 2 Receipt    T    feed bin 40, sequence uint, hash Hash
//	 3 FarReceipt T    receiver Key, receipt [as 2], signature bin 64
//	 4 Vector     C    heads array of Head, more bool, answer bool, all bool, stored bool, taken uint
//	 5 Ladder     C    feed bin 40, rungs array of [sequence uint, bin 8], answer bool
//	 6 Ping       T    n uint, wall uint (ms), measured bool, offset int (ms), within int (± ms)
//	 7 Pong       T    n uint, wall uint (ms)
//	 8 Credit     C    taken uint
//	 9 Links      T    array of bin 8: the first bytes of the keys that the sender has links with
//	10 Addresses  T    array of [key Key, hosts array of 1–8 labels "host:port"]: where the sender reaches others
//
// # How devices agree
//
// A tap is pushed to every linked device once it is synced. A receiver checks
// the chain, writes, verifies the signature beside the write, and after both
// sends a receipt. Whoever sees that another device has no link with an entry's
// author passes the entry on; receipts then go back signed. On connect, on
// waking and every second tick devices compare vectors and send what is
// missing, at most Settings.WindowFrames frames ahead of the other's credit.
//
// Where a head is unknown though the feed is longer here, the feed has forked
// (a folder was copied, or an old copy of it restored): a ladder of hashes finds
// the last common entry, both branches are exchanged, kept and folded, and the
// device whose feed it is begins a new incarnation.
//
// # What a member could do
//
// A member can write anything as itself, flood, and withhold. It cannot write
// as another device, change or drop what another holds, or vouch for storage
// that is not its own. Two members together can remove any device.
package mesh
