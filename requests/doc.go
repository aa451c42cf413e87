// Package requests says who is here and what was asked: roles, who holds which
// device, rooms, cases with their people and times, requests and what became of
// them. It is a pure fold: a Board is a function of the set of facts that it was
// given, in any order and with repeats; it has no clock, no files and no network.
//
// # Rules
//
// A request is a set of marks. It begins with an Asked; every other mark names
// the one that it answers, and belongs to the request that its names lead to.
// All marks are kept and listed; none is refused for what it says or when.
//
//   - What is wanted is what the newest Asked, Changed or agreed alternative says:
//     those that no other lies under. If they differ, all stand ("two values"),
//     the highest in the order of entries is in use, and no loop is closed.
//   - An Undone ends the mark that it names and nothing below it. An Undone
//     cannot be undone: whoever undid in error records the thing again.
//   - A read-back (InHand) matches if item, strength, count and measure equal what
//     it answers. Its loop is closed if somebody agreed from the asking room, nobody
//     refused, and what it answers is still what is wanted. "From the asking
//     room" is: in a role that can agree, on a device whose last Holds before
//     covers the room, and not by the person who read back. What was passed in
//     unasked has no loop: there the read-back is the runner's own statement.
//   - The loop shown is that of what lies at the door or went in; before, of what
//     is in hand; of several the weakest. A device's next read-back corrects its
//     last one, until that is at the door.
//   - Ends of a delivery (TakenIn, TakenBack, which is 0 taken in) count once if they
//     are equal. If they differ none counts, and people take one back.
//   - The step shown is the furthest. Withdrawn and could not stand instead of it only
//     while nothing is at the door or inside; otherwise "take it back". One runner's
//     could not ends only that device's going.
//   - Joined requests are one need: joining is an equivalence. One delivery counts,
//     at most one of them calls, and none as soon as one is answered. An answer is
//     to what was wanted before it: a change, or an alternative that was agreed,
//     calls again. An offer is an answer while it waits for the inside.
//   - A mark is out of turn if it names another sort of mark than expected, or no
//     mark before it reached a step that it follows. It counts all the same.
//
// Registers (roles, rooms, settings, layouts, lines of lists) follow
// mesh.Standing, over the Defaults. A Layout that nobody accepted never stands.
//
// # Cases
//
// A case begins with a CaseOpen. A fact belongs to the case that it names; if
// it names none, to the newest in its room in the order of entries before it;
// if it is about another fact (TestHeard, SaidHeard, LateTime, Inject,
// ThisIsReal, Undone), to that one's. What belongs to none is Astray: kept, listed,
// and found when its case comes.
//
//   - A case is over as soon as somebody shut it. What comes later belongs to it
//     all the same. Of several that are open in a room the newest is in use.
//   - What was undone is in no list. If that is a CaseOpen, there is no such
//     case, and what names none in its room belongs to the case before.
//   - The newest word counts for a tag's role, for a line that is ticked, and for
//     an answer. All checks, tests, crossings, breaches, phrases and steps stand.
//   - A check by oneself, or with a tag missing, stands and is marked.
//   - Left out is every line that a Skipped names, and in a hurry every line of the
//     brief and the plans, as those lists are now; a tick makes up for it.
//   - Somebody is in the zone entered last and not left, in the order of the entries;
//     if one of that person's was stated to have happened before, as they happened.
//     Going into a zone leaves
//     all that do not lie further outwards; coming out of one, also all within it.
//     An unknown zone is inside.
//   - A LateTime says when the fact or mark that it names happened. The newest
//     that gives a time counts; all stay. None corrects another.
//   - Noted times stand by when they happened, by their authors' clocks. One is out of
//     order if a line of the list "time-after" says that another comes first, and none
//     did: by the order of entries if both were noted at once, else by the clocks.
//   - A drill goes on until somebody says that this is real, or shuts its case after
//     the drill began.
//
// # State
//
// State is stateLabel and FoldVersion, then: roles, rooms, settings, each register
// with its facts and the refs that stand; layouts and lines of lists likewise;
// devices with their Holds and abilities; what devices said of themselves, with
// the newest; requests as asked, each with step, shown, loop, flags, count taken
// in, marks and when they happened if that was corrected, wants, goings, passings,
// read-backs, offers and deliveries; joins and joined needs; all facts of cases,
// each with its case; cases as opened, each with its lists by ref and what was
// decided of each (see state_cases.go); marks that lead nowhere; unreadable facts;
// counts by kind of what was kept. Integers are 8 bytes, big-endian; strings and
// lists stand behind their length; a ref is its 41 bytes; a yes or no is one byte.
// Version 1 had no cases, lists, layouts and conditions: it only counted those facts.
//
// # Bytes
//
// A body is a msgpack array of its fields in the order drawn, without maps, nils,
// floats or extensions, integers in their shortest form (see mesh.Encode).
// Examples of all of them are in testdata/kinds.txt.
//
//	ref       bin 41: author 32, tap 8, part 1; all zeros names nothing
//	key       bin 32
//	number    int 0 … 999999: a line's spoken number; 0: none
//	id        str, at most 40 bytes of a-z A-Z 0-9 - . _
//	tag       str, at most 16 bytes     label  at most 160     text  at most 2000
//	int       whole number              wall   ms since 1970 UTC, 0: not given
//	bool      c2 or c3                  []x    array of x
//	measure   int: 1 each, 2 microgram, 3 microlitre, 4 unit, 5 micromole
//	thing     [item number, strength label, count int 1 … 2⁵³, measure]
//	urgency   int: 1 before we leave, 2 next opening, 3 now
//	side      int: 1 outside, 2 anteroom, 3 inside
//	can       int, sum of: 1 ask, 2 agree, 4 fetch, 8 observe, 16 scribe, 32 charge, 64 lead
//
// Registers; replaces are the refs of the writes that were seen and replaced:
//
//	0101 RoleLine     [replaces []ref, id, name label, side, can, place int, gone bool]
//	0102 RoomLine     [replaces []ref, id, name label, zones [][id, name label, side],
//	                   air changes per hour in thousandths int, gone bool]
//	0103 Setting      [replaces []ref, name id, value text]
//	0104 Holds        [role id, tag, rooms []id (none: all), zone id]
//	0105 Layout       [replaces []ref, name label, tiles [][place int, item number], accepted tag]
//	0106 ListLine     [replaces []ref, list id, id, words text, place int, marks int, source label, gone bool]
//
// The case, before the door closes:
//
//	0110 CaseOpen     [room id, what id, label, follows ref, hurry bool]
//	0111 CaseShut     [case ref, why label]
//	0112 CaseMoved    [case ref, to label]
//	0113 RoleTaken    [case ref, tag, role id]
//	0114 LineDone     [case ref, list id, line id, done bool, words text]
//	0115 PPECheck     [case ref, wearer tag, checker tag, off bool, good bool, words text]
//	0116 Skipped      [case ref, list id, lines []id]
//	0117 TestAsked    [case ref, room id, battery int per cent (-1: not known), charging bool,
//	                   disk int MB, screen on bool, door id]
//	0118 TestHeard    [names ref, sound bool, round trip int ms]
//	0119 Condition    [battery int per cent (-1: not known), charging bool, disk int MB free]
//
// Requests and their marks:
//
//	0120 Asked        [case ref, room id, thing, urgency, direction int (0 in, 1 out),
//	                   origin int (0 tapped, 1 by voice, 2 passed in unasked, 3 from paper),
//	                   bundle number, tag (empty: whoever tapped)]
//	0121 Changed      [names ref (Asked, Changed, Agreed), thing, urgency]
//	0122 Acknowledged [names ref (Asked)]
//	0123 CouldNot     [names ref (Asked), why label]
//	0124 PassedOn     [names ref (Asked), to tag, device key (zeros: not known)]
//	0125 Offered      [names ref (Asked, Changed, Agreed), things []thing, 1 … 3]
//	0126 InHand       [names ref (Asked, Changed, Agreed), thing, how int (1 chosen, 2 scanned,
//	                   3 spoken), lot label]
//	0127 Agreed       [names ref (InHand, Offered), which int 0 … 3 (0: the read-back)]
//	0128 Refused      [names ref (InHand, Offered), which int 0 … 3 (0: all of it), why label]
//	0129 AtDoor       [names ref (InHand), door id]
//	012a TakenIn      [names ref (AtDoor), count int 0 … 2⁵³]
//	012b TakenBack    [names ref (AtDoor), why label]
//	012c Withdrawn    [names ref (Asked), why label]
//	012d Undone       [names ref (any), why label]
//	012e Joined       [one ref, other ref (Asked)]
//	012f Reminded     [names ref (Asked), level int]
//	0130 JoinedCode   [names ref (Asked), room id, code label]
//
// Voices, people and times:
//
//	0140 Said         [case ref, room id, phrase id, out bool]
//	0141 SaidHeard    [names ref]
//	0142 Entered      [case ref, tag, zone id, checker tag]
//	0143 Left         [case ref, tag, zone id, checker tag]
//	0144 Breach       [case ref, tag, what id, words text]
//	0145 DoffStep     [case ref, tag, step id, checker tag, good bool]
//	0146 Door         [room id, open bool]
//	0150 Time         [case ref, what id, attempt int, aerosol bool, words text]
//	0151 ChartClock   [case ref, monitor wall, within int ms]
//	0152 LateTime     [names ref, happened wall, within int ms]
//	0160 Debrief      [case ref, held bool, why text]
//	0161 DebriefLine  [case ref, line id, words text]
//	0170 Drill        [case ref, room id, label]
//	0171 Inject       [drill ref, what id, words text]
//	0172 ThisIsReal   [drill ref]
package requests
