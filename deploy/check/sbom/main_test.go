package main

import (
	"encoding/json"
	"os"
	"strings"
	"testing"
)

// Every module has a licence that is known to be permissive, and the notices are
// those of the modules that there are.
func TestLicences(t *testing.T) {
	list, err := modules("../../..")
	if err != nil {
		t.Fatal(err)
	}
	if len(list) < 15 {
		t.Errorf("only %d modules", len(list))
	}
	have, err := os.ReadFile("../../THIRD-PARTY.md")
	if err != nil || string(have) != noticesOf(list) {
		t.Errorf("deploy/THIRD-PARTY.md is not what make notices writes: %v", err)
	}
	text, err := bill(list)
	if err != nil {
		t.Fatal(err)
	}
	var doc struct {
		BomFormat, SpecVersion, SerialNumber string
		Metadata                             struct{ Component struct{ Name string } }
		Components                           []struct {
			Name, Version, Purl string
			Licenses            []struct{ Expression string }
		}
	}
	if err := json.Unmarshal(text, &doc); err != nil {
		t.Fatal(err)
	}
	if doc.BomFormat != "CycloneDX" || doc.Metadata.Component.Name != "github.com/bridletie/bridletie" || len(doc.Components) != len(list)-1 {
		t.Errorf("%s of %s with %d components", doc.BomFormat, doc.Metadata.Component.Name, len(doc.Components))
	}
	for _, c := range doc.Components {
		if c.Version == "" || !strings.HasPrefix(c.Purl, "pkg:golang/"+c.Name+"@v") || c.Licenses[0].Expression == "" {
			t.Errorf("%+v", c)
		}
	}
	if again, _ := bill(list); string(again) != string(text) {
		t.Error("two bills differ")
	}
}

func TestLicencesThatAreNotTaken(t *testing.T) {
	for _, text := range []string{
		"", "All rights reserved.", "GNU GENERAL PUBLIC LICENSE Version 3", "Mozilla Public License Version 2.0",
		"Apache License Version 2.0 ... with parts under the GNU LESSER General Public License",
	} {
		if kind, err := kindOfLicence(text); err == nil {
			t.Errorf("%q is taken for %s", text, kind)
		}
	}
}
