package barcode

import (
	"errors"
	"math/rand/v2"
	"os/exec"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// asking has bwip-js encode each line and say what is wrong with it.
const asking = `
const all = require('fs').readFileSync(0, 'utf8').split('\n').filter(x => x);
const b = require('bwip-js');
for (const text of all) {
  let said = 'OK';
  try { b.raw(/^http/i.test(text) ? 'gs1dldatamatrix' : 'gs1datamatrix', text, {}); }
  catch (e) { said = String(e.message || e); const m = /^bwipp\.(\w+)#/.exec(said); if (m) said = m[1]; }
  console.log(said);
}`

// asked is what the program that is installed here says of some texts. Where there
// is none the test is left out, and the reason printed.
func asked(t *testing.T, texts []string) []string {
	t.Helper()
	node, err := exec.LookPath("node")
	if err != nil {
		t.Skip("node is not installed, so only what bwip-js said earlier is compared (bwip-js.txt)")
	}
	ask := exec.CommandContext(t.Context(), node, "-e", asking)
	ask.Stdin = strings.NewReader(strings.Join(texts, "\n"))
	if npm, err := exec.LookPath("npm"); err == nil {
		root, _ := exec.CommandContext(t.Context(), npm, "root", "-g").Output() // none: NODE_PATH as it is
		ask.Env = withModules(ask.Environ(), strings.TrimSpace(string(root)))
	}
	var wrong strings.Builder
	ask.Stderr = &wrong
	out, err := ask.Output()
	if strings.Contains(wrong.String(), "Cannot find module 'bwip-js'") {
		t.Skip("bwip-js is not installed (npm install -g bwip-js), so only what it said earlier is compared (bwip-js.txt)")
	}
	require.NoError(t, err, wrong.String())
	said := strings.Split(strings.TrimSpace(string(out)), "\n")
	require.Len(t, said, len(texts))
	return said
}

// withModules adds a folder to where node looks for modules.
func withModules(environ []string, folder string) []string {
	if at := slices.IndexFunc(environ, func(s string) bool { return strings.HasPrefix(s, "NODE_PATH=") }); at >= 0 {
		folder = strings.TrimPrefix(environ[at], "NODE_PATH=") + ":" + folder
	}
	return append(environ, "NODE_PATH="+folder)
}

// damaged changes one thing about a text: a character, its absence, two neighbours,
// its end, or something of another text behind it.
func damaged(random *rand.Rand, text, other string) string {
	at := random.IntN(len(text))
	switch random.IntN(5) {
	case 0:
		return text[:at] + string("0123456789AZz-"[random.IntN(14)]) + text[at+1:]
	case 1:
		return text[:at] + text[at+1:]
	case 2:
		if at+1 < len(text) {
			return text[:at] + text[at+1:at+2] + text[at:at+1] + text[at+2:]
		}
		return text[:at]
	case 3:
		return text[:max(1, at)]
	}
	return text + other
}

// Goal: the independent program agrees, asked now, on texts that nobody chose.
// Method: bwip-js as it is installed encodes its earlier texts, and these damaged at
// random. Only texts in the printed form count among the damaged: what begins
// another way it takes for no GS1 text at all, and a bracket at the end it leaves
// out. The seed is printed.
func TestAnotherProgramAgreesWhenAsked(t *testing.T) {
	seed := uint64(time.Now().UnixNano())
	t.Log("seed", seed)
	random := rand.New(rand.NewPCG(seed, 5))
	var texts []string
	for _, row := range rowsOf(t, "bwip-js.txt") {
		if _, text, _ := strings.Cut(row, "\t"); text[0] == '(' {
			texts = append(texts, text)
		}
	}
	for range 3 * len(texts) {
		text := damaged(random, texts[random.IntN(len(texts))], texts[random.IntN(len(texts))])
		if strings.HasPrefix(text, "(") && !strings.HasSuffix(text, "(") {
			texts = append(texts, text)
		}
	}
	require.Greater(t, len(texts), 800)
	same := 0
	for i, said := range asked(t, texts) {
		s, err := Parse([]byte(texts[i]), yearOfTests)
		if (err == nil) == (said == "OK") {
			same++
			continue
		}
		var e *Error
		if errors.As(err, &e) {
			t.Logf("%s: %s there, %s here", texts[i], said, e.Code)
			continue
		}
		t.Logf("%s: %s there, %s here", texts[i], said, s)
	}
	t.Logf("%d of %d agree", same, len(texts))
	require.Greater(t, same*200, len(texts)*199, "what is a label and what is none")
}
