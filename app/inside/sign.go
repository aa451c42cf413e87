package inside

import "lintel/app/words"

// signWord is what the sign for the glass says: item, size or strength, count.
func signWord(w words.Words, r Request) string {
	return w.Thing(int64(r.Thing.Count), r.Thing.Name, words.Measured(string(r.Thing.Strength)))
}
