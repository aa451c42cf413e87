// Lintelctl is a device without a window, and what looks at one from outside.
//
//	lintelctl device   one device: commands on standard input, changes on standard output
//	lintelctl demo     four devices play an invented case and are audited
//	lintelctl audit    checks one device's data folder; never writes
//	lintelctl replay   lists its entries in turn, then state and hash; never writes
//	lintelctl bench    figures that can be set beside other programs
//
// It ends with code 0 where all is well, 1 where something failed or an audit
// has findings, 2 where it was called wrongly. An error is one sentence and a
// hint, on standard error.
//
// # lintelctl device
//
//	lintelctl device -data DIR -name N -role R [-tag T] [-room A1]… [-listen ADDR] [-peer ADDR]… [-find=false] [-json] [-stay]
//
// The device says "ready ADDRESS DEVICEID" once, then obeys one line after
// another and tells what changes. It ends with quit or with its input; with
// -stay only with quit or an interrupt. On its first start it belongs to no
// unit: found begins one, join enters one, and anything recorded before founds
// one of its own, which a later found or join takes over. It looks for the
// devices of its unit on the network by mDNS and beacons; with -find=false, or
// where it only listens on loopback, it dials nothing but -peer, dial, and what
// worked before. join without an address tries -peer, then what is nearby,
// and waits up to 5 s for either.
//
// Every line gets exactly one answer, done or error, in the order of the
// lines; only empty lines and those that begin with # get none. A bad line
// changes nothing and the device goes on. Any line may end with "at -2m" or
// "at 14:05:30": that is when it happened.
//
//	ask ITEM [xN] [now|next|before] [room A1] [out]
//	change REQ [ITEM] [xN] [now|next|before]
//	going REQ                                   I am going
//	readback REQ ITEM xN [scanned|spoken] [lot L]
//	door REQ [room A1]                          it lies at the door
//	take REQ [xN] [glass]                       taken in; seen through the glass
//	back REQ [WHY]                              taken back from the door
//	withdraw REQ [WHY]
//	offer REQ ITEM xN [/ ITEM xN [/ ITEM xN]]   alternatives
//	agree REQ|MARK [N]                          the read-back, or alternative N
//	refuse REQ|MARK [N] [WHY]
//	cannot REQ [WHY]
//	pass-on REQ TAG
//	voice ITEM [xN] [now|next|before] [room A1] [tag L1] [code C]
//	passed ITEM [xN] [room A1]                  passed in unasked
//	join-requests REQ REQ                       the same need
//	undo REQ|MARK                               this device's last mark on it, or one mark
//	hold [role R] [tag T] [room A1]… [every-room]
//	found NAME, invite, join CODE [ADDRESS], dial ADDRESS, remove DEVICE [WHY]
//	peers, board [all], ledger [PLACE], restock [PLACE], audit, hash
//	stock-demo                                  invented rooms and stock
//	help, quit
//
// REQ is a joining code (five digits), at least six digits from the beginning
// of a ref, or a whole ref. MARK is the whole ref of a mark, as done answered it;
// where several read-backs stand, or several offers, only the mark says which
// one is agreed to or refused. ITEM is a spoken number or words of the name; it
// ends at the quantity or the first keyword, and words in quotation marks are
// never keywords. A quantity is x1 to x999; ask, voice and passed take x1 where
// none is given, a read-back and an offer never do.
//
// # JSON lines
//
// With -json every line of output is one object with an "event":
//
//	ready    address, device
//	done     command; of a record: request (code), ref, mark, saved, copies; of a list: count; else what was asked for
//	error    command, error (a sentence), hint
//	request  a request as it looks now, printed when it changes: request (code), ref, room, item, number, strength,
//	         count, urgency (now, next, before), origin, shown (asked, acknowledged, in-hand, at-door, taken-in,
//	         could-not, withdrawn, undone, take-back), loop (open, read-back, matches, closed), of this device's
//	         own requests delivery (not-saved, saved, copies, runner) and what it is made of: saved (on this disk),
//	         copies (on others'), runner (on a device that a runner for the room holds); by, going, offers and in_hand
//	         (each with the mark to agree or refuse), taken, joined, marks, flags, ringing
//	link     device, name, health (connected, doubtful, not-connected), via, address, round_trip_us
//	copied   device, name, feed, seq, far: another device has stored this one's entries up to seq
//	joined, left   device, name: members of the unit
//	note     note (an id), text
//	peer     device, name, status, self, health, via, address, round_trip_us, offset_ms, within_ms, found (of typed,
//	         remembered, beacon, mdns, told, itself: the ways it was found), told_by: a line of peers
//	holder, balance, restock, finding, help   the lines of other lists, before their done
//
// A start that fails prints an error line too. Audit and replay with -json print log, entry, request, finding, state and
// audit. Fields may be added; those that are there keep their meaning.
package main
