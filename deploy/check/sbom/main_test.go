package main

import (
	"bytes"
	"errors"
	"os"
	"regexp"
	"strings"
	"testing"

	cdx "github.com/CycloneDX/cyclonedx-go"
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
	var text, again bytes.Buffer
	if err := errors.Join(bill(&text, list), bill(&again, list)); err != nil {
		t.Fatal(err)
	}
	if text.String() != again.String() {
		t.Error("two bills differ")
	}
	var bom cdx.BOM
	if err := cdx.NewBOMDecoder(&text, cdx.BOMFileFormatJSON).Decode(&bom); err != nil {
		t.Fatal(err)
	}
	components := *bom.Components
	if bom.SpecVersion != cdx.SpecVersion1_5 || bom.Metadata.Component.Name != "github.com/bridletie/bridletie" || len(components) != len(list)-1 ||
		len(*(*bom.Dependencies)[0].Dependencies) != len(components) {
		t.Errorf("%s of %s with %d components", bom.SpecVersion, bom.Metadata.Component.Name, len(components))
	}
	if !regexp.MustCompile(`^urn:uuid:[0-9a-f]{8}-([0-9a-f]{4}-){3}[0-9a-f]{12}$`).MatchString(bom.SerialNumber) {
		t.Errorf("the serial number is %q", bom.SerialNumber)
	}
	for _, c := range components {
		if c.Version == "" || c.PackageURL != "pkg:golang/"+c.Name+"@"+c.Version || (*c.Licenses)[0].Expression == "" {
			t.Errorf("%+v", c)
		}
	}
	var fewer bytes.Buffer
	if err := bill(&fewer, list[:len(list)-1]); err != nil || strings.Contains(fewer.String(), bom.SerialNumber) {
		t.Errorf("another list has the same serial number: %v", err)
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
