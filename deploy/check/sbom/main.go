// Command sbom lists the modules that the binary is made of, with their licences:
// as CycloneDX on standard output, or with -notices as the file that goes with the
// binary. It fails on a licence that it does not know to be permissive.
package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
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
	text, err := bill(list)
	if err != nil {
		return err
	}
	_, err = w.Write(append(text, '\n'))
	return err
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

// bill is the list as CycloneDX 1.5. The same list gives the same bytes.
func bill(list []module) ([]byte, error) {
	type licence struct {
		Expression string `json:"expression"`
	}
	type component struct {
		Type     string    `json:"type"`
		Ref      string    `json:"bom-ref"`
		Name     string    `json:"name"`
		Version  string    `json:"version,omitempty"`
		Purl     string    `json:"purl,omitempty"`
		Licences []licence `json:"licenses"`
	}
	type dependency struct {
		Ref  string   `json:"ref"`
		Need []string `json:"dependsOn"`
	}
	doc := struct {
		Format   string `json:"bomFormat"`
		Spec     string `json:"specVersion"`
		Serial   string `json:"serialNumber"`
		Version  int    `json:"version"`
		Metadata struct {
			Component component `json:"component"`
		} `json:"metadata"`
		Components   []component  `json:"components"`
		Dependencies []dependency `json:"dependencies"`
	}{Format: "CycloneDX", Spec: "1.5", Version: 1}
	needs := dependency{Need: []string{}}
	for _, m := range list {
		c := component{Type: "library", Ref: m.Path, Name: m.Path, Version: m.Version, Licences: []licence{{m.licence}}}
		if m.Main {
			c.Type = "application"
			doc.Metadata.Component, needs.Ref = c, c.Ref
			continue
		}
		c.Purl = "pkg:golang/" + m.Path + "@" + m.Version
		c.Ref = c.Purl
		doc.Components = append(doc.Components, c)
		needs.Need = append(needs.Need, c.Ref)
	}
	doc.Dependencies = []dependency{needs}
	plain, err := json.Marshal(doc.Components)
	if err != nil {
		return nil, err
	}
	sum := sha256.Sum256(plain)
	sum[6], sum[8] = sum[6]&0x0f|0x80, sum[8]&0x3f|0x80 // a UUID of version 8
	h := hex.EncodeToString(sum[:16])
	doc.Serial = fmt.Sprintf("urn:uuid:%s-%s-%s-%s-%s", h[:8], h[8:12], h[12:16], h[16:20], h[20:])
	return json.MarshalIndent(doc, "", "  ")
}
