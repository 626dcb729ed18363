package api_test

import (
	"bytes"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/bridletie/bridletie/api/web"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/service"
)

// mostQuote is how large the quote element may be compressed, in bytes.
const mostQuote = 20000

// quoteSite is what is served, and the quote element as it is served.
func quoteSite(t *testing.T) (*web.Site, []byte) {
	t.Helper()
	_, number, _ := strings.Cut(service.EngineVersion, "/")
	site, err := web.Load(number)
	if err != nil {
		t.Fatal(err)
	}
	f, ok := site.Find("/quote/" + site.Version() + "/quote.js")
	if !ok {
		t.Fatal("the quote element is not served")
	}
	d, err := f.Open()
	if err != nil {
		t.Fatal(err)
	}
	return site, d.Plain.Body
}

func TestQuoteElementIsSmall(t *testing.T) {
	_, script := quoteSite(t)
	n := len(web.Gzip(script))
	t.Logf("%d bytes, %d compressed", len(script), n)
	if n > mostQuote {
		t.Errorf("the quote element has %d bytes compressed, at most %d", n, mostQuote)
	}
}

// The quote element is one file without eval, styles or handlers in attributes,
// cookies or storage: what would not run under a strict policy, or would keep
// something.
func TestQuoteElementKeepsToItsWord(t *testing.T) {
	_, script := quoteSite(t)
	for _, never := range []string{
		"import ", "import(", "eval(", "new Function", "innerHTML", "outerHTML", "insertAdjacentHTML", "document.write", "document.cookie",
		"localStorage", "sessionStorage", "indexedDB", "setAttribute('style'", "cssText", "http://", "https://",
	} {
		for line := range bytes.Lines(script) {
			text := strings.TrimSpace(string(line))
			if strings.Contains(text, never) && !strings.Contains(text, "'http://www.w3.org/2000/svg'") {
				t.Errorf("the quote element has %q: %s", never, text)
			}
		}
	}
}

// The quote element has words for every note that an estimate can have, in each of its
// languages, but for those that it says in another place.
func TestQuoteElementSaysEveryNote(t *testing.T) {
	_, script := quoteSite(t)
	_, rest, _ := bytes.Cut(script, []byte("const saidElsewhere = ["))
	elsewhere, _, _ := bytes.Cut(rest, []byte("]"))
	languages := bytes.Count(script, []byte("notes: '"))
	said := 0
	for _, code := range note.Codes() {
		if !strings.HasPrefix(string(code), "estimate-") || bytes.Contains(elsewhere, []byte("'"+code+"'")) {
			continue
		}
		said++
		if n := bytes.Count(script, []byte("'"+code+"': '")); n != languages || n < 3 {
			t.Errorf("%s is said in %d languages of %d", code, n, languages)
		}
	}
	if said < 10 || bytes.Count(elsewhere, []byte("'")) != 6 {
		t.Errorf("%d codes are looked at, besides %s", said, elsewhere)
	}
}

// embedded is the line of the guide that embeds the quote element.
var embedded = regexp.MustCompile(`(<script type="module" src="https://calc\.example/quote/)([^/"]+)(/quote\.js" integrity=")([^"]+)("[^>]*></script>)`)

// The guide's line has the version and the hash of the script that is served.
func TestGuideEmbedsTheQuoteElement(t *testing.T) {
	file := filepath.Join(root, "api", "web", "guide", "element.md")
	text := readFile(t, file)
	at := embedded.FindAllSubmatch(text, -1)
	if len(at) != 1 {
		t.Fatalf("the guide embeds the quote element %d times, want once", len(at))
	}
	site, script := quoteSite(t)
	version, hash := site.Version(), web.Integrity(script)
	if *update {
		writeFile(t, file, embedded.ReplaceAll(text, []byte("${1}"+version+"${3}"+hash+"${5}")))
		return
	}
	if got := string(at[0][2]); got != version {
		t.Errorf("the guide embeds version %s, and %s is served; use -update", got, version)
	}
	if got := string(at[0][4]); got != hash {
		t.Errorf("the guide gives the hash %s, and %s is that of the script; use -update", got, hash)
	}
}
