// Package kits says what exists and where it went: the catalogue, bundles,
// places and par levels, and the ledger of every movement. It is a pure fold:
// a Ledger is a function of the set of facts that it was given, in any order
// and with repeats; it has no clock, no files and no network.
//
// # Rules
//
// Every movement has two ends, so the sum over all places (the supplier and the
// ends included) is zero for each item, lot, syringe and measure. Two sorts of
// places exist only here: DrawnOff (containers go in, syringes come out) and
// Difference (the other end of what counts found).
//
//   - A reversal names one movement and repeats it. One that does not repeat it
//     does not count and is listed. A movement is out if at least one counts.
//   - A hand-over is a movement to a door. What stands are its ends that no other
//     of its ends settles and that nobody reopened; what a reopened end settled
//     stays settled. If all that stand are equal they count once: what was
//     taken goes on, the rest goes back. If they differ none counts; it stays at
//     the door, as a conflict.
//   - A witness names a record and repeats its lines.
//   - A count names the count before of its place. Of several that name the same
//     one, the first in the order of entries holds, the others are listed. The
//     adjustment is what was counted, less what the entries within its vector and
//     the counts before it make. What is outside its vector comes on top.
//   - An issue adds up when issued = given + wasted + broken + returned +
//     destroyed unopened + left with the patient.
//   - A kit is what its newest preparation says. Its seal is the last one put on
//     that; it is opened when an opening names the seal, or only the kit while
//     that preparation was the newest. It is expired from the day after the
//     last day of its first line; the day is given, nothing here knows one.
//   - A lot is picked first expired, first out, then as received, then by its
//     text; without a known day last; expired or held back never. What another
//     lot is below zero is not picked elsewhere.
//   - A count proposes an end for everything inside a room and for what lies at
//     its door. What was asked for, or came in an opened kit, was used; else the
//     exit policy decides. Controlled drugs, what is reprocessed, sharps and what
//     must be seen are asked for singly.
//   - Waste has one reason. What is drawn up is used, with the mass of its
//     containers; what is then thrown away from the syringe has its share of the
//     price. Currencies are never added to each other.
//   - What exercises moved is told apart by its case: whoever looks says which
//     cases are exercises. Their waste is training, restock and the lists of
//     controlled drugs leave them out. A count says what really lies there.
//   - In the order of entries an order adds to what is outstanding, and what
//     comes from a supplier takes away, never below nothing.
//
// Nothing is refused for what it says: Ledger.Audit lists every broken rule.
//
// # Bytes
//
// A body is a msgpack array of its fields in the order drawn, without maps, nils,
// floats or extensions, integers in their shortest form (see mesh.Encode).
//
//	ref       bin 41: author 32, tap 8, part 1; all zeros names nothing
//	hash      bin 32
//	number    int 0 … 999999
//	id        str, at most 40 bytes of a-z A-Z 0-9 - . _
//	tag       str, at most 16 bytes     label  at most 160     text  at most 2000
//	int       whole number, not negative     wall  ms since 1970 UTC
//	measure   int: 1 each, 2 microgram, 3 microlitre, 4 unit, 5 micromole; 0: no quantity
//	quantity  [int 0 … 2^42, measure]
//	place     [int sort, id]; [0, ""] names none. Sorts: 1 supplier, 2 store, 3 trolley, 4 kit,
//	          5 door, 6 inside, 7 in transit; the ends 20 used, 21 given, 22 wasted,
//	          23 destroyed unopened, 24 broken, 25 quarantine, 26 reprocessing, 27 returned,
//	          28 left with the patient
//	line      [number item, label lot, ref syringe, quantity]
//	template line  [number item, int count, id where]
//	head      [bin 40 feed, int sequence from 1, bin 8 first bytes of its hash]
//	flags     int, sum of: 1 controlled, 2 must be seen, 4 reprocessed, 8 high alert, 16 drug,
//	          32 person, 64 bundle, 128 look-alike, 256 comes out
//	exit      int: 1 discard, 2 decontaminate, 3 quarantine, 4 return if never taken in
//	how       int: 0 unknown, 1 assumed, 2 scanned
//	grade     int: 1 own device, 2 same device, 3 through the glass, 4 countersigned later
//	x …       array of x
//
// # Kinds
//
//	0x0201 ItemLine  register: one line of the catalogue, by Number
//	    Replaces      ref …            the writes of this register that it replaces
//	    Number        number           lifelong spoken number, Damm check digit last
//	    Name          label            generic name, never all capitals
//	    Group         id               airway, breathing, drug, line, fluid, ppe, cleaning, people, …
//	    Detail        label            size or strength as on the label
//	    Stocked       measure          how stock is counted
//	    Content       quantity         of one container; 0: not a drug
//	    VolumeUL      int              µL of one container; 0: not a liquid
//	    Flags         flags
//	    Exit          exit             what becomes of it if it was inside and not used
//	    ExitDays      int              days of quarantine
//	    LabelClass    id               class word of a syringe label
//	    Waste         id               class of waste
//	    KeptAt        place            where it is normally fetched
//	    KeptWords     label            shelf, drawer
//	    TallMan       label            name in tall-man letters; empty: none
//	    Codes         label …          barcodes: 14-digit form, or as scanned
//	    Alternatives  number …         what may be offered instead
//	    CostMinor     int              of one container, in hundredths of the currency
//	    Currency      id               iso 4217, lower case
//	    MassMG        int              mg of waste from one
//	    Picture       hash             SHA-256 of a picture; zeros: none
//	    Source        label            where the line comes from
//	    Gone          bool             the line is no longer in use
//	0x0202 BundleLine  register: several items asked for with one tap, by Number
//	    Replaces      ref …            the writes of this register that it replaces
//	    Number        number           spoken number
//	    Name          label
//	    Rescue        id               b, c, d, arrest; empty: not a rescue set
//	    LiesAt        place            where the prepared set lies
//	    Words         label            the same in words
//	    Lines         template line …
//	    Source        label            where the line comes from
//	    Gone          bool             the line is no longer in use
//	0x0203 Template  register: what a kit is prepared from, by ID
//	    Replaces      ref …            the writes of this register that it replaces
//	    ID            id
//	    Name          label
//	    Lines         template line …
//	    Source        label            where the line comes from
//	    Gone          bool             the line is no longer in use
//	0x0204 PlaceLine  register: what a place is called, by Place
//	    Replaces      ref …            the writes of this register that it replaces
//	    Place         place
//	    Name          label
//	    Shelf         label            where to find it
//	    Map           hash             SHA-256 of a plan; zeros: none
//	    Gone          bool             the line is no longer in use
//	0x0205 ParLine  register: how many a place should hold, by Place and Item
//	    Replaces      ref …            the writes of this register that it replaces
//	    Place         place
//	    Item          number
//	    Par           int              containers
//	    Gone          bool             the line is no longer in use
//	0x0206 WasteLine  register: a class of waste, by Class and Country
//	    Replaces      ref …            the writes of this register that it replaces
//	    Class         id
//	    Country       id               iso 3166, lower case; eu: European List of Waste
//	    Code          label            text, zeros and star kept
//	    Name          label
//	    Source        label            where the line comes from
//	    Gone          bool             the line is no longer in use
//	0x0207 LotLine  register: a batch, by Item and Lot
//	    Replaces      ref …            the writes of this register that it replaces
//	    Item          number
//	    Lot           label
//	    Expiry        int              as 20271231; 0: not known
//	    Inferred      bool             the day was not on the label
//	    How           how
//	0x0208 Quarantine  register: a lot held back, by Item and Lot
//	    Replaces      ref …            the writes of this register that it replaces
//	    Item          number
//	    Lot           label
//	    Held          bool             false: let go again
//	    Why           label
//	0x0210 Moved  a movement; To a door: the begin of a hand-over
//	    From          place
//	    To            place            another place than From
//	    Then          place            of a hand-over: where taken goods go; else the zero place
//	    Lines         line …           at least one, none of nothing
//	    Case          ref              zero: no case
//	    For           ref              the request mark it belongs to; zero: none
//	    Issue         ref              the controlled-drug issue (0x0220) it belongs to; zero: none
//	    Why           label
//	0x0211 Reversed  takes a movement out, if it repeats it
//	    Names         ref              a 0x0210, 0x0213 or 0x0214
//	    From          place            as there; of a 0x0213 its At
//	    To            place            as there; of a 0x0213 its At; of a 0x0214 sort 28 and the id of From
//	    Lines         line …           as there, in that order
//	    Why           label
//	0x0212 Ended  ends the whole of a hand-over
//	    Names         ref              a 0x0210 to a door
//	    Taken         int …            one number for each line, in its measure; all 0: taken back
//	    Settles       ref …            ends of the same hand-over that it overrules
//	0x0213 DrawnUp  containers and diluent become one syringe, named by this part
//	    Case          ref              zero: no case
//	    At            place            where
//	    Lines         line …           what was used up
//	    Item          number           the drug in the syringe
//	    Amount        quantity         of the drug, in a base measure
//	    VolumeUL      int              µL in the syringe
//	    Label         label            as written on the syringe
//	    DrawnBy       tag
//	    CheckedBy     tag              a second person; empty: nobody
//	    DiscardAfter  wall             0: not given
//	    Issue         ref              the controlled-drug issue (0x0220) it belongs to; zero: none
//	0x0214 LeftWith  a movement to place sort 28 with the id of From
//	    From          place
//	    Lines         line …           none of nothing
//	    Case          ref              zero: no case
//	    Unit          label            the next unit
//	    ReceivedBy    tag              empty: not known
//	    Issue         ref              the controlled-drug issue (0x0220) it belongs to; zero: none
//	0x0215 Witnessed  a second person saw it
//	    Names         ref              a 0x0210, 0x0213 or 0x0214
//	    Lines         line …           as there, in that order
//	    Tag           tag              who
//	    Grade         grade
//	0x0216 Counted  what was seen at a place
//	    Place         place
//	    Before        ref              the count before of this place; zero: none
//	    Seen          head …           how far its author held each feed at that moment
//	    Lines         line …           quantities may be 0; each speaks for every lot of its item and measure
//	    Whole         bool             everything at the place was counted; else only these items
//	0x0217 Reopened  an end was recorded by mistake and does not stand
//	    Names         ref              a 0x0212
//	    Why           label
//	0x0220 Issued  opens one line of a controlled-drug record
//	    Case          ref              zero: no case
//	    Line          line             containers
//	    TakenBy       tag
//	    CheckedBy     tag
//	    AuthorisedBy  id               a role
//	    Register      label            the page of the paper register
//	0x0221 IssueShut  closes an issue, also a short one
//	    Issue         ref
//	    Why           text             empty: nobody said
//	0x0230 Prepared  a kit was filled
//	    Kit           id
//	    Template      id
//	    Lines         line …
//	    PreparedBy    tag
//	    CheckedBy     tag
//	0x0231 Sealed  a seal was put on a prepared kit
//	    Names         ref              a 0x0230
//	    Kit           id
//	    Seal          label            its number
//	    Expiry        int              of its first line to expire, as 20271231
//	0x0232 SealOpened  a seal was opened
//	    Names         ref              a 0x0231
//	    Kit           id
//	    Seal          label            as read
//	    Case          ref              zero: no case
//	    Whole         bool             it was unbroken when found
//	0x0233 BrokenDown  a kit was taken apart
//	    Names         ref              a 0x0230
//	    Kit           id
//	0x0240 Ordered  more was ordered
//	    Item          number
//	    Count         int              containers
//	    From          label            the supplier
//	0x0241 WasteBox  a sealed waste container
//	    Case          ref              zero: no case
//	    Room          id
//	    Class         id               class of waste
//	    Seal          label            its number
//	    LitresT       int              tenths of a litre
//	    Drill         bool             training stock
package kits
