package station

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/kits"
	"lintel/mesh"
	"lintel/requests"
)

// starterOf gives the lists of a fresh device, by name and in their order.
func starterOf(t *testing.T) (Starter, map[mesh.ID][]requests.ListLine) {
	t.Helper()
	s, err := ReadStarter()
	require.NoError(t, err)
	lists := map[mesh.ID][]requests.ListLine{}
	for _, line := range s.Roles.Lists {
		lists[line.List] = append(lists[line.List], line)
	}
	return s, lists
}

// Goal: a unit finds every list filled. Method: read them all; each line has
// words and a source, places count up from 1, no list is missing.
func TestStarterListsAreWholeAndInOrder(t *testing.T) {
	_, lists := starterOf(t)
	for _, name := range []mesh.ID{
		"what", "plan", "brief", "don", "doff", "transfer", "extubation", "time", "time-after",
		"phrase-in", "phrase-out", "breach", "debrief", "not-held", "inject", ListLabels, ListSpelling + "us", ListSpelling + "au",
	} {
		require.NotEmpty(t, lists[name], name)
	}
	for name, lines := range lists {
		for i, line := range lines {
			require.NotEmpty(t, strings.TrimSpace(string(line.Words)), "%s %s", name, line.ID)
			require.NotEmpty(t, line.Source, "%s %s", name, line.ID)
			if !strings.HasPrefix(string(name), string(ListSpelling)) {
				require.EqualValues(t, i+1, line.Place, "%s %s", name, line.ID)
			}
		}
	}
}

// Goal: rules of order name times that exist. Method: the id of each rule is
// two ids of the list of times, and its words begin with the second one's.
func TestRulesOfOrderNameTimes(t *testing.T) {
	_, lists := starterOf(t)
	words := map[string]string{}
	for _, line := range lists["time"] {
		words[string(line.ID)] = string(line.Words)
		require.Less(t, line.Marks, uint32(16), line.ID)
	}
	for _, rule := range lists["time-after"] {
		later, before, two := strings.Cut(string(rule.ID), ".")
		require.True(t, two && words[later] != "" && words[before] != "", rule.ID)
		require.True(t, strings.HasPrefix(string(rule.Words), words[before]), "%s: %s", rule.ID, rule.Words)
	}
}

// Goal: no starter text shouts a drug's name, orders a dose or asks about a
// person. Method: every word of all lists against all names of drugs in capitals and
// a dose's measures; questions hold no "who".
func TestStarterTextsHoldNoDoseAndNoCapitals(t *testing.T) {
	s, lists := starterOf(t)
	var drugs []string
	for _, item := range s.Kits.Items {
		if item.Flags&kits.IsDrug != 0 {
			drugs = append(drugs, strings.ToUpper(string(item.Name)))
		}
	}
	require.NotEmpty(t, drugs)
	for name, lines := range lists {
		for _, line := range lines {
			for _, word := range strings.Fields(string(line.Words)) {
				require.False(t, slices.Contains(drugs, word), "%s %s", name, line.ID)
				require.NotContains(t, []string{"mg", "mg/kg", "microgram", "mL/kg"}, word, "%s %s", name, line.ID)
			}
		}
	}
	for _, question := range lists["debrief"] {
		require.NotRegexp(t, `(?i)\bwho\b`, question.Words)
	}
}

// Goal: every class of the catalogue has a colour of its own, and every starter
// setting that is a number can be read as one. Method: look all of them up.
func TestEveryDrugHasALabelAndEverySettingAValue(t *testing.T) {
	v := empty(t)
	seen := map[mesh.ID]bool{}
	for _, item := range v.Ledger.Items() {
		d, is := v.Drug(item.Number)
		require.Equal(t, item.Flags&kits.IsDrug != 0, is, item.Name)
		if is {
			require.Equal(t, item.LabelClass, d.Class, item.Name)
			require.NotEmpty(t, d.Strength, item.Name)
			require.NotEmpty(t, d.Volume, item.Name)
			seen[d.Class] = true
		}
	}
	require.Greater(t, len(seen), 7)
	for name, least := range map[mesh.ID]int64{"unreached-after": 2, "call-again": 30, "wipe-for": 60, "preox-mark-1": 180, "ppe-prompt": 0, "battery-low": 20} {
		require.Equal(t, least, v.Board.Number(name), name)
	}
	spelling, _ := v.Board.Setting(SettingSpelling)
	require.NotEmpty(t, v.Board.List(ListSpelling+mesh.ID(spelling)))
}
