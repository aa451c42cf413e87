// Package words holds every sentence that people read, each under an id, so
// that a translation is another table and nothing else. It decides nothing:
// whoever has a request, an error or a finding asks for its id and says it.
//
// A sentence has numbered blanks, {1}, {2} …; it uses those it needs, in the
// order that its language needs.
package words

import (
	"fmt"
	"maps"
	"slices"
	"strings"
)

// ID names a sentence. Ids never change: translations and JSON lines use them.
type ID string

// Words says sentences in one language.
type Words struct{ said map[ID]string }

// English is what the program ships with. Each call gives a fresh table.
func English() Words {
	w := Words{said: map[ID]string{}}
	for _, table := range []map[ID]string{
		englishStates(), englishRequests(),
		englishFaults(), englishHints(), englishDeviceFaults(), englishDeviceHints(), englishCallFaults(), englishCallHints(),
		englishCaseFaults(), englishCaseHints(), englishFacts(), englishFactWords(), englishCaseLists(), englishHelpCase(), englishRecord(),
		englishDevice(), englishAnswers(), englishHelp(), englishKitFaults(), englishKitHints(), englishKits(), englishKitLists(), englishReady(), englishDrugRecord(), englishHelpKits(),
		englishThings(), englishInside(), englishInsidePages(), englishInsideDrugs(), englishRunner(), englishDoor(), englishDoorPages(), englishScribe(), englishBrief(), englishDebrief(), englishCharge(), englishJoin(), englishScreenHints(),
		englishWindow(), englishFrame(), englishWindowFaults(), englishWindowHints(), englishLabel(),
		englishAudit(), englishFindings(), englishDemo(), englishPapers(), englishDrugs(), englishTables(), englishTableCommands(), englishPictures(), englishScan(), englishScanFaults(), englishScanHints(),
	} {
		maps.Copy(w.said, table)
	}
	return w
}

// blanksMax is the highest number of a blank.
const blanksMax = 9

// Say gives the sentence of id with its blanks filled in; a blank that nobody
// can fill is left out. An id without a sentence is said as it is: better a
// strange word than none.
func (w Words) Say(id ID, blanks ...any) string {
	sentence, known := w.said[id]
	if !known {
		return string(id)
	}
	var pairs []string
	for n := 1; n <= blanksMax; n++ {
		blank := fmt.Sprintf("{%d}", n)
		if n <= len(blanks) {
			pairs = append(pairs, blank, fmt.Sprint(blanks[n-1]))
		} else {
			pairs = append(pairs, " "+blank, "", blank, "")
		}
	}
	return strings.NewReplacer(pairs...).Replace(sentence)
}

// Has tells whether there is a sentence for id.
func (w Words) Has(id ID) bool { _, known := w.said[id]; return known }

// IDs lists every id that has a sentence, sorted.
func (w Words) IDs() []ID { return slices.Sorted(maps.Keys(w.said)) }

// Fault says what went wrong and what to do about it. The blanks are for both.
func (w Words) Fault(id ID, blanks ...any) (sentence, hint string) {
	return w.Say("fault."+id, blanks...), w.Say("hint."+id, blanks...)
}

// Count says a number of things in the right form: one under id.one, others
// under id.many.
func (w Words) Count(id ID, n int) string {
	if n == 1 {
		return w.Say(id+".one", n)
	}
	return w.Say(id+".many", n)
}
