package runner

import (
	"strings"

	"lintel/app/look"
	"lintel/app/station"
	"lintel/app/words"
)

// labelFace is a drug as on its label. count is empty where no count may be told.
func labelFace(w words.Words, d Drug, count string) look.DrugLabelFace {
	if !d.Is {
		return look.DrugLabelFace{}
	}
	return look.DrugLabelFace{
		Name: d.Name, Strength: words.Measured(d.Strength), Volume: words.Measured(d.Volume), Count: count, Warning: first(warnings(w, d.Drug)),
		Band: look.Band{Word: w.DrugClass(string(d.Class)), Colour: d.Colour, Striped: d.Striped},
	}
}

// warnings are what has to be known of a drug, the gravest first.
func warnings(w words.Words, d station.Drug) (out []string) {
	if d.Counted {
		out = append(out, w.Say("runner.drug.controlled"))
	}
	if d.LookAlike {
		out = append(out, w.Say("runner.drug.look-alike"))
	}
	if d.HighAlert {
		out = append(out, w.Say("runner.drug.high-alert"))
	}
	return out
}

func first(all []string) string {
	if len(all) == 0 {
		return ""
	}
	return all[0]
}

// warned is a place with the warnings of a drug before it.
func warned(w words.Words, d Drug, place string) string {
	all := warnings(w, d.Drug)
	if !d.Is || len(all) == 0 {
		return place
	}
	return joined(strings.Join(all, ", "), place)
}
