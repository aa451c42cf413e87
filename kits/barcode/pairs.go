package barcode

import "strings"

// checkPairs looks at elements together, all those of one label: an identifier
// again with another value, elements that exclude each other, and last those
// that lack one that they need.
func checkPairs(fields []field) (warnings []Warning, err error) {
	for i, f := range fields {
		for _, before := range fields[:i] {
			if f.id.id != before.id.id {
				continue
			}
			if f.value != before.value {
				return nil, f.fault(RepeatDiffers, f.at, "")
			}
			warnings = append(warnings, Warning{Doubt: Repeated, Position: f.at, Part: f.part, ID: f.id.id})
			break
		}
	}
	for i, f := range fields {
		for _, other := range fields[:i] {
			if excludes(f.id, other.id.id) || excludes(other.id, f.id.id) {
				return nil, f.fault(Excluded, f.at, other.id.id)
			}
		}
	}
	for _, f := range fields {
		if lacking := lacks(f.id, fields); lacking != "" {
			return warnings, f.fault(Incomplete, f.at, lacking)
		}
	}
	return warnings, nil
}

// excludes tells whether id may not stand beside another. None excludes itself.
func excludes(id identifier, other string) bool {
	for pattern := range strings.SplitSeq(id.excludes, ",") {
		if other != id.id && matches(pattern, other) {
			return true
		}
	}
	return false
}

// lacks gives the first group of identifiers of which none stands beside id,
// as identifiers.txt writes it; empty where nothing is lacking.
func lacks(id identifier, fields []field) string {
	if id.needs == "" {
		return ""
	}
	for group := range strings.SplitSeq(id.needs, "&") {
		met := false
		for alternative := range strings.SplitSeq(group, ",") {
			met = met || stand(alternative, fields)
		}
		if !met {
			return group
		}
	}
	return ""
}

// stand tells whether every identifier of an alternative is there.
func stand(alternative string, fields []field) bool {
	for pattern := range strings.SplitSeq(alternative, "+") {
		found := false
		for _, f := range fields {
			found = found || matches(pattern, f.id.id)
		}
		if !found {
			return false
		}
	}
	return true
}

// matches tells whether an identifier fits a pattern, in which n is any digit.
func matches(pattern, id string) bool {
	if len(pattern) != len(id) {
		return false
	}
	for i := range len(id) {
		if pattern[i] != 'n' && pattern[i] != id[i] {
			return false
		}
	}
	return true
}
