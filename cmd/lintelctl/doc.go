// Lintelctl is a device without a window, and what looks at one from outside.
//
//	lintelctl device   one device: commands on standard input, changes on standard output
//	lintelctl demo     seven devices play an invented case, from the brief to the debrief, and are audited
//	lintelctl audit    checks one device's data folder; never writes
//	lintelctl replay   lists its entries in turn, then state and hash; never writes
//	lintelctl case     the record of the cases in a data folder, with figures; never writes
//	lintelctl stock, kits, lot, restock, controlled, waste, label, ready
//	                   kits and stock in a data folder; never write
//	lintelctl recon    works out written cases of controlled drugs
//	lintelctl scan     reads barcode scans, one a line, or the barcode in a picture, and says what each holds
//	lintelctl export   a unit's lists as a spreadsheet or CSV; never writes into the folder
//	lintelctl import   what such a file would change, and every problem in it; never writes
//	lintelctl card     the numbered card of the board inside, as PDF
//	lintelctl paper    an exposure sheet, the record of a case or syringe labels, as PDF; never writes into the folder
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
// "at 14:05:30": that is when it happened; what is to come within the hour is refused.
//
//	ask ITEM [xN] [now|next|before] [room A1] [out]
//	change REQ [ITEM] [xN] [now|next|before]
//	going REQ                                   I am going
//	readback REQ ITEM xN [scanned|spoken] [lot L]
//	door REQ [room A1] [anyway]                 it lies at the door; anyway: at another one than its own
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
//	undo REQ|FACT|MARK                          this device's last mark on it, a fact, or one mark
//	remind REQ                                  still on it?
//	pass-all TAG                                everything to another runner; lists what lies at the door too
//	hold [role R] [tag T] [room A1]… [every-room]
//	found NAME, invite, join CODE [ADDRESS], dial ADDRESS, remove DEVICE [WHY]
//	peers, board [all], ledger [PLACE], audit, hash
//	stock-demo                                  invented rooms, stock and a template of a kit
//	export FILE.xlsx, export FILE.csv [LIST] [spreadsheet]   lists: catalogue, bundles, templates, places, pars
//	import FILE [apply]                         every problem, else every change; only with apply it is written
//	picture [all]                               pictures that are missing on this device, or every one
//	picture ITEM FILE|outline NAME|none         a photo (JPEG, PNG, GIF), an outline; without place, time and name
//	picture map PLACE FILE|none                 where it has what: CSV
//	help, quit
//
// What belongs to a case; "room A1" names the one there, else it is the one that is open where this device is, or was last:
//
//	case open ROOM [WHAT] [hurry] [label L] [follows A1] [anyway], case shut [room A1] [WHY], case move [room A1] TO
//	role TAG ROLE [room A1]
//	tick LIST LINE [off] [room A1] [WORDS], skip LIST [room A1] [LINE]…   left out: lines, or all that is open
//	ppe WEARER CHECKER [off] [bad] [room A1] [WORDS]
//	test [door A1] [room A1] [battery N] [charging] [locked], hear-test FACT [sound]
//	say PHRASE [out|in] [room A1], heard FACT      from a device held inside outwards, else inwards
//	enter TAG [ZONE] [checked-by T] [room A1], leave TAG [ZONE] [checked-by T] [room A1]
//	breach TAG WHAT [room A1] [WORDS], doff TAG STEP CHECKER [bad] [room A1]
//	door-open [room A1], door-shut [room A1]       measured at the door
//	ended END ITEM xN [room A1] [lot L]            used, given, wasted, destroyed, broken, quarantine, reprocessing, returned
//	draw-up ITEM xN into N mL [by T] [checked-by T] [LABEL], left-with UNIT syringe FACT|ITEM xN [room A1] [received-by T]
//	time WHAT [attempt N] [room A1] [WORDS], fix-time FACT [within 5s] at TIME, chart HH:MM [within 1s] [room A1]
//	debrief held|not [room A1] [WHY], debrief-line LINE [room A1] WORDS
//	drill start ROOM [LABEL], drill second ROOM [LABEL] (a second patient: a case, and a drill in it), inject WHAT [room A1] [WORDS], real [room A1]
//
// Kits, stock, the count and controlled drugs; those of the first two lines only look, also with a data folder: lintelctl stock [-json] DIR [PLACE]:
//
//	stock [PLACE], kits, lot LOT [ITEM], restock [PLACE], waste [by case|room|month] [in COUNTRY] [room A1|CASE]
//	controlled [sheet|list] [room A1|CASE], label SYRINGE|ITEM, ready [ROOM] [in 40m]
//	count [room A1]                             an end for everything inside
//	count [room A1] accept [all] [seen-by T] [glass], count [room A1] item ITEM [END] [seen-by T] [glass]
//	counted PLACE [whole] [ITEM xN|none [/ ITEM xN|none]…]
//	prepare KIT TEMPLATE [by T] [checked-by T], check-kit KIT [TAG], seal KIT SEAL [expires YYYYMMDD]
//	open-kit KIT [seal SEAL] [broken] [inside] [room A1], break-down KIT
//	issue ITEM xN|for REQ [at-door] [lot L] [from PLACE] [by T] [checked-by T] [role R] [page P] [room A1]
//	give ITEM xN|ITEM N mL|syringe SYRINGE [N mL], waste-drug the same [seen-by T] [glass]
//	witness MOVEMENT… [tag T] [glass|later], close-issue ISSUE [WHY], reverse MOVEMENT WHY, settle MOVEMENT N…
//	order ITEM xN [from WORDS], receive ITEM xN [lot L] [expires YYYYMMDD] [scanned] [from PLACE] [to PLACE]
//	pick all|PLACE [ITEM], hold-lot ITEM lot L [WHY], free-lot ITEM lot L, seal-waste CLASS SEAL [litres N] [room A1]
//
// MOVEMENT, ISSUE and SYRINGE are five digits, as done answers them, or a whole ref. A drug that is given in mL and lies in no
// syringe is drawn up with it: containers are opened, and the rest stays in a syringe.
//
// What can be looked at, and what the unit has written down as its own:
//
//	cases, facts, timeline, figures [all]          each but cases takes [room A1|CASE]
//	calls, runners [ROOM], bag [ROOM], openings [ROOM], usual ITEM [now|next|before], air [ROOM], stay
//	list LIST [room A1|CASE], line LIST ID [place N] [gone] [WORDS], setting [NAME [VALUE]]
//	layout [accept NAME [PLACE=ITEM]…]             never while a case is open
//
// FACT and CASE are five digits, as the device tells them, or a whole ref. A time, a person's entry or a breach where no
// case was ever opened begins one, so that it is recorded.
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
//	         copies (on others'), runner (on a device that a runner for the room holds), not_reached (for too long: use voice); by, going, offers and in_hand
//	         (each with the mark to agree or refuse), taken, joined, marks, flags, inject, ringing
//	link     device, name, health (connected, doubtful, not-connected), via, address, round_trip_us
//	copied   device, name, feed, seq, far: another device has stored this one's entries up to seq
//	joined, left   device, name: members of the unit
//	note     note (an id), text
//	peer     device, name, status, self, health, via, address, round_trip_us, offset_ms, within_ms, found (of typed,
//	         remembered, beacon, mdns, told, itself: the ways it was found), told_by, and as it recorded them last battery,
//	         charging, disk_mb, and battery_drill, which a drill says: a line of peers
//	fact     something that was recorded for a case, printed when it comes and when it is undone: kind (case, moved, shut,
//	         role, tick, untick, skipped, ppe, ppe-off, test, test-heard, in, out, breach, doff, said-in, said-out, heard,
//	         time, time-fixed, chart, debrief, no-debrief, answer, drill, inject, real), case (code), room, fact (code), ref,
//	         happened, late, role and by (who recorded it), tag, checker, list, what (a line, zone, role, phrase …), lines,
//	         words, attempt, aerosol, names (code of what it answers), undone, flags
//	case     case (code), ref, room, what, label, opened, hurry, over, moved_to, drill, requests, inside (tags), unheard, skipped
//	at       a line of a timeline: lane (fact, request, stock, opening), at (ms on the common clock), within_ms, known (false:
//	         that clock was compared with no other), late, code, ref, by, role, monitor (ms by the patient monitor), text
//	figures  case, room, drill, cases, drills, requests, needs, to_acknowledge and to_deliver (n, mean_ms, median_ms, p90_ms by
//	         nearest rank, p90_linear_ms), unanswered, undelivered, withdrawn, wrong_caught, closed_loop and debriefs (of, all,
//	         low and high of Wilson's 95 % interval), openings, openings_measured, openings_window_ms, open_ms, inside_ms,
//	         entries, still_in, breaches, no_debrief, within_ms, apart, roles (from five cases)
//	call     code, ref, room, why (breach, new, contended, take-back, put-back, stop, reminded, still, passed, said, test),
//	         level, for (names of devices), here, elapsed_ms, usual_ms
//	runner   room, device, tag, doing (here, at-door, fetching, away in a drill, none), at, next, open
//	opening  room, in_ms, now, requests        usual  item, number, urgency, usual_ms, of
//	air      room, milli_air_changes, last_aerosol, minutes_99, minutes_999
//	line     list, line, words, marks, source, open, two_values      setting  name, value, two_values
//	tile     layout, place, number, item
//	problem  list, row, column, cell, problem (an id), text: one thing for which a file cannot be used
//	change   list, row, key, name, new, columns: one line that a file would change; import's done has count, and entries if applied
//	picture  place or number, name, own (the name of one that is embedded), hash (SHA-256), here
//	held     place, item, number, lot, expiry, inferred, how (scanned, assumed, unknown), syringe, n, measure, refused (why it
//	         is not to be taken: expired, quarantine, not-accounted)
//	kit      kit, template, name, state, ready, seal, expiry, undated, lines, missing, prepared_by, checked_by, two_people, case
//	lot      item, number, lot, expiry, held_back, at, kits, cases (each name, n, how)
//	restock  place, item, number, par, have, missing (to be taken here), from, where, lots (lot, expiry, how, n), undated
//	order    item, number, needed, outstanding, order, for
//	end      room, item, number, lot, syringe, amount, to, why, issue, at_door, ask (why it is asked singly)
//	issue    issue (code), ref, case, item, number, lot, state, taken_by, checked_by, authorised_by, register, slots (slot and
//	         amount), entries (code, ref, happened, by, from, to, amount, why, reversed, needs_witness, witnessed, witnesses),
//	         closings (by, why). An amount is containers, ul (beside them), base, measure, exact
//	register   one line of the sheet for the paper register      listed   one line of the auditor's list, why
//	waste    case, room, month, reason, class, code, training, containers, mass_mg, costs, unpriced, unweighed
//	box      a waste container: room, class, code, seal, tenths_litre, fill_tenths_litre
//	label    syringe, ref, name, class, amount, lines             room   room, ready, gaps: the gap lines after it
//	gap      room, gap, of, at, n                                 recon  id, state, measure, issued … residual, listed
//	holder, balance, finding, help   the lines of other lists, before their done
//	finding  finding, where, refs, want, got, drill (it is about exercises alone; these come last); audit has drills: how many
//
// The done of a fact has code and ref of it; that of case has beside, the code of another case that is open in the room; that
// of an undone case has apart, how many requests and facts were recorded for it; that of stay has may, and count: the entries that are not on two clean devices.
// The done of ready has ready. Lintelctl ready ends with 0 where a room could take a patient (now, or after -in), else with 1.
// Lintelctl case -json prints case, fact, at, request and figures.
//
// lintelctl scan prints nothing but scan lines, one for each line of its input, also for a bad or an empty one, and ends
// with 0 whatever was scanned:
//
//	scan     scan (as given), symbology (as ]d2, where the scanner sent it), scheme (gs1, digital-link, hibc, plain), elements
//	         (ai, title, meaning, value, position; date and inferred of dates, amount of measures), item (what tells it from
//	         others), gtin14, lot, serial, expiry (a date), inferred (the label has no day: the month's last one), quantity,
//	         link, warnings (warning, position, ai, begins, says); or error (a sentence), hint, code, position. With the
//	         code incomplete there are elements too. Positions are bytes of the line, from 0; {GS} has four
//
// A start that fails prints an error line too. Audit and replay with -json print log, entry, request, finding, state and
// audit. Fields may be added; those that are there keep their meaning.
package main
