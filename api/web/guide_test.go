package web

import (
	"strings"
	"testing"
)

// Every page of the guide is served, and every link between two of them leads to one.
func TestGuideIsWhole(t *testing.T) {
	site, err := Load("0")
	if err != nil {
		t.Fatal(err)
	}
	pages := 0
	for _, at := range site.Paths() {
		if at != "/guide" && !strings.HasPrefix(at, "/guide/") || strings.Contains(at, "/assets/") {
			continue
		}
		pages++
		f, _ := site.Find(at)
		d, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		text := string(d.Plain.Body)
		if !strings.Contains(text, "<h1") || strings.Contains(text, `href="../`) {
			t.Errorf("%s has no heading, or a link that leads nowhere once it is served", at)
		}
		for _, part := range strings.Split(text, `href="`)[1:] {
			to, _, _ := strings.Cut(part, `"`)
			to, _, _ = strings.Cut(to, "#")
			if strings.Contains(to, ":") || to == "" {
				continue
			}
			if _, ok := site.Find(to); !ok && to != "/openapi.yaml" {
				t.Errorf("%s links to %s, which is not served", at, to)
			}
		}
	}
	if pages < 20 {
		t.Errorf("the guide has %d pages", pages)
	}
}

func TestServedLink(t *testing.T) {
	for to, want := range map[string]string{
		"yardage.md":                       "/guide/yardage",
		"yardage.md#read-the-answer":       "/guide/yardage#read-the-answer",
		"index.md":                         "/guide",
		"#on-paper":                        "#on-paper",
		"https://www.rfc-editor.org/":      "https://www.rfc-editor.org/",
		"/demo/shop":                       "/demo/shop",
		"../../../openapi.yaml":            "/openapi.yaml",
		"../../../deploy/SETTINGS.md":      repository + "deploy/SETTINGS.md",
		"../../../deploy/README.md#limits": repository + "deploy/README.md#limits",
		"../../example_test.go":            repository + "api/example_test.go",
	} {
		if got := servedLink(to); got != want {
			t.Errorf("servedLink(%q) = %q, want %q", to, got, want)
		}
	}
}
