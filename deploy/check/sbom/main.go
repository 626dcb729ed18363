// Command sbom lists the modules that the binary is made of, with their licences:
// as CycloneDX on standard output, or with -notices as the file that goes with the
// binary. It fails on a licence that it does not know to be permissive.
package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"

	cdx "github.com/CycloneDX/cyclonedx-go"
	"github.com/google/uuid"
)

// module is one that is linked into the binary.
type module struct {
	Path, Version, Dir, Sum string
	Main                    bool

	licence string // SPDX
	text    string
}

func main() {
	root := flag.String("root", "../..", "folder of the service")
	notices := flag.Bool("notices", false, "write the notices instead of the bill of materials")
	flag.Parse()
	list, err := modules(*root)
	if err == nil {
		err = write(os.Stdout, list, *notices)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "sbom:", err)
		os.Exit(1)
	}
}

func write(w io.Writer, list []module, notices bool) error {
	if notices {
		_, err := io.WriteString(w, noticesOf(list))
		return err
	}
	return bill(w, list)
}

// modules are those whose packages the binary is built from, in order, with their
// licences.
func modules(root string) ([]module, error) {
	list := exec.Command("go", "list", "-deps", "-json=Module", "./cmd/bridletie")
	list.Dir = root
	list.Env = append(os.Environ(), "CGO_ENABLED=0", "GOFLAGS=-mod=readonly")
	list.Stderr = os.Stderr
	out, err := list.Output()
	if err != nil {
		return nil, err
	}
	seen := map[string]module{}
	for d := json.NewDecoder(bytes.NewReader(out)); ; {
		var p struct{ Module *module }
		if err := d.Decode(&p); errors.Is(err, io.EOF) {
			break
		} else if err != nil {
			return nil, err
		}
		if p.Module != nil {
			seen[p.Module.Path] = *p.Module
		}
	}
	var all []module
	var faults []error
	for _, m := range seen {
		if m.text, err = licenceText(m.Dir); err == nil {
			m.licence, err = kindOfLicence(m.text)
		}
		if err != nil {
			faults = append(faults, fmt.Errorf("%s: %w", m.Path, err))
		}
		all = append(all, m)
	}
	slices.SortFunc(all, func(a, b module) int { return strings.Compare(a.Path, b.Path) })
	return all, errors.Join(faults...)
}

// licenceText is what the licence files of a module say, and its notice.
func licenceText(dir string) (string, error) {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return "", err
	}
	var parts []string
	for _, e := range entries {
		name := strings.ToUpper(e.Name())
		if e.IsDir() || !strings.HasPrefix(name, "LICENSE") && !strings.HasPrefix(name, "LICENCE") && !strings.HasPrefix(name, "COPYING") && !strings.HasPrefix(name, "NOTICE") {
			continue
		}
		text, err := os.ReadFile(filepath.Join(dir, e.Name()))
		if err != nil {
			return "", err
		}
		parts = append(parts, strings.TrimSpace(strings.ReplaceAll(string(text), "\r\n", "\n")))
	}
	if len(parts) == 0 {
		return "", errors.New("no licence file")
	}
	return strings.Join(parts, "\n\n"), nil
}

// kindOfLicence tells the licence by its words.
func kindOfLicence(text string) (string, error) {
	words := " " + strings.Join(strings.Fields(text), " ") + " "
	has := func(phrase string) bool { return strings.Contains(words, phrase) }
	for _, bad := range []string{"GNU GENERAL PUBLIC", "GNU LESSER", "GNU AFFERO", "GNU General Public License", "Mozilla Public License", "Server Side Public", "Business Source", "NonCommercial"} {
		if has(bad) {
			return "", errors.New("not a permissive licence: " + bad)
		}
	}
	var kinds []string
	if has("Apache License") && has("Version 2.0") {
		kinds = append(kinds, "Apache-2.0")
	}
	if has("Permission is hereby granted, free of charge") && has("to deal in the Software without restriction") {
		kinds = append(kinds, "MIT")
	}
	if has("Redistribution and use in source and binary forms") {
		if has("Neither the name") || has("names of its contributors") || has("name of the author may not") {
			kinds = append(kinds, "BSD-3-Clause")
		} else {
			kinds = append(kinds, "BSD-2-Clause")
		}
	}
	if has("Permission to use, copy, modify, and/or distribute this software for any purpose with or without fee") {
		kinds = append(kinds, "ISC")
	}
	if len(kinds) == 0 {
		return "", errors.New("a licence that is not known to be permissive")
	}
	return strings.Join(kinds, " AND "), nil
}

// noticesOf is the file that goes with the binary: who made what, under which
// terms. Terms that several share word for word stand once.
func noticesOf(list []module) string {
	var b strings.Builder
	b.WriteString("# Third-party modules\n\nThe modules that the binary is built from, besides its own, as `make notices` lists them.\n\n| module | version | licence |\n|---|---|---|\n")
	shared := map[string][]string{}
	var order []string
	for _, m := range list {
		if m.Main {
			continue
		}
		fmt.Fprintf(&b, "| %s | %s | %s |\n", m.Path, m.Version, m.licence)
		if shared[m.text] == nil {
			order = append(order, m.text)
		}
		shared[m.text] = append(shared[m.text], m.Path)
	}
	b.WriteString("\nGo's standard library is under BSD-3-Clause, as golang.org/x/net is.\n")
	for _, text := range order {
		fmt.Fprintf(&b, "\n## %s\n\n```text\n%s\n```\n", strings.Join(shared[text], ", "), text)
	}
	return b.String()
}

// bill is the list as CycloneDX 1.5. The same list gives the same bytes: the serial
// number comes from the components, and there is no time of day.
func bill(w io.Writer, list []module) error {
	bom := cdx.NewBOM()
	bom.Metadata = &cdx.Metadata{}
	bom.Components = &[]cdx.Component{}
	needs := cdx.Dependency{Dependencies: &[]string{}}
	for _, m := range list {
		c := cdx.Component{Type: cdx.ComponentTypeLibrary, BOMRef: m.Path, Name: m.Path, Version: m.Version, Licenses: &cdx.Licenses{{Expression: m.licence}}}
		if m.Main {
			c.Type = cdx.ComponentTypeApplication
			bom.Metadata.Component, needs.Ref = &c, c.BOMRef
			continue
		}
		c.PackageURL = "pkg:golang/" + m.Path + "@" + m.Version
		c.BOMRef = c.PackageURL
		*bom.Components = append(*bom.Components, c)
		*needs.Dependencies = append(*needs.Dependencies, c.BOMRef)
	}
	bom.Dependencies = &[]cdx.Dependency{needs}
	plain, err := json.Marshal(bom.Components)
	if err != nil {
		return err
	}
	bom.SerialNumber = uuid.NewSHA1(uuid.NameSpaceURL, plain).URN()
	return cdx.NewBOMEncoder(w, cdx.BOMFileFormatJSON).SetPretty(true).EncodeVersion(bom, cdx.SpecVersion1_5)
}
