package words

import (
	"lintel/kits"
	"lintel/mesh"
)

// microlitresPerML is how many microlitres a millilitre has.
const microlitresPerML = 1000

// LabelText is the upper lines of a syringe's label: the drug with its class,
// the amount in its volume, and what one millilitre holds. The last one is left
// out where no volume is known.
func (w Words) LabelText(name string, class mesh.ID, amount kits.Quantity, ul int64) []string {
	lines := []string{name}
	if class != "" {
		lines = append(lines, w.Say("drug-class."+ID(class)))
	}
	base := w.Amount(amount.N, MeasureID(amount.Measure))
	if ul <= 0 {
		return append(lines, base)
	}
	volume := w.Amount(ul, MeasureID(mesh.Microlitre))
	lines = append(lines, w.Say("label.in", base, volume))
	per := amount.N / ul * microlitresPerML
	rest := amount.N % ul * microlitresPerML
	if rest%ul != 0 {
		return append(lines, w.Say("label.about", w.Amount(per+(rest+ul/2)/ul, MeasureID(amount.Measure))))
	}
	return append(lines, w.Say("label.per", w.Amount(per+rest/ul, MeasureID(amount.Measure))))
}
