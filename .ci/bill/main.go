// Bill writes the bill of materials of a built program: what it is, and each module
// in it with its version, checksum and licence, as CycloneDX 1.6 JSON (ECMA-424).
//
//	go run ./.ci/bill PROGRAM
//
// The modules are those that Go has written into the program. A licence is told by
// the file LICENSE of its module in the module cache; one that is not known by its
// words is left out. The same program gives the same bill.
package main

import (
	"bytes"
	"crypto/sha256"
	"debug/buildinfo"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

func main() {
	if len(os.Args) != 2 {
		fmt.Fprintln(os.Stderr, "usage: bill PROGRAM")
		os.Exit(2)
	}
	if err := run(os.Stdout, os.Args[1]); err != nil {
		fmt.Fprintln(os.Stderr, "bill:", err)
		os.Exit(1)
	}
}

// The parts of CycloneDX that are written.
type (
	document struct {
		Format       string       `json:"bomFormat"`
		Spec         string       `json:"specVersion"`
		Serial       string       `json:"serialNumber"`
		Version      int          `json:"version"`
		Metadata     metadata     `json:"metadata"`
		Components   []component  `json:"components"`
		Dependencies []dependency `json:"dependencies"`
	}
	metadata struct {
		Time      string    `json:"timestamp,omitempty"` // of the commit
		Component component `json:"component"`
	}
	component struct {
		Type       string     `json:"type"`
		Ref        string     `json:"bom-ref"`
		Name       string     `json:"name"`
		Version    string     `json:"version"`
		Package    string     `json:"purl"`
		Hashes     []hash     `json:"hashes,omitempty"`
		Licenses   []licensed `json:"licenses,omitempty"`
		Properties []property `json:"properties,omitempty"`
	}
	hash struct {
		Algorithm string `json:"alg"`
		Content   string `json:"content"`
	}
	licensed struct {
		License struct {
			ID string `json:"id"`
		} `json:"license"`
	}
	property struct {
		Name  string `json:"name"`
		Value string `json:"value"`
	}
	dependency struct {
		Ref string   `json:"ref"`
		On  []string `json:"dependsOn"`
	}
)

func run(w io.Writer, program string) error {
	data, err := os.ReadFile(program)
	if err != nil {
		return err
	}
	info, err := buildinfo.Read(bytes.NewReader(data))
	if err != nil {
		return err
	}
	folders, err := moduleFolders()
	if err != nil {
		return err
	}
	sum := sha256.Sum256(data)
	main := componentOf("application", info.Main.Path, info.Main.Version)
	main.Hashes = []hash{{"SHA-256", hex.EncodeToString(sum[:])}}
	main.Properties = []property{{"go", info.GoVersion}}
	d := document{Format: "CycloneDX", Spec: "1.6", Version: 1, Serial: serial(sum), Components: []component{}}
	for _, s := range info.Settings {
		main.Properties = append(main.Properties, property{"go:" + s.Key, s.Value})
		if s.Key == "vcs.time" {
			d.Metadata.Time = s.Value
		}
	}
	needs := dependency{Ref: main.Ref, On: []string{}}
	for _, m := range info.Deps {
		if m.Replace != nil {
			m = m.Replace
		}
		c := componentOf("library", m.Path, m.Version)
		c.Properties = []property{{"go:sum", m.Sum}}
		if id := licenceIn(folders[m.Path+"@"+m.Version]); id != "" {
			c.Licenses = make([]licensed, 1)
			c.Licenses[0].License.ID = id
		}
		d.Components, needs.On = append(d.Components, c), append(needs.On, c.Ref)
	}
	d.Metadata.Component, d.Dependencies = main, []dependency{needs}
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	return e.Encode(d)
}

// componentOf names a module by its package URL, as purl-spec has it for Go.
func componentOf(kind, path, version string) component {
	url := "pkg:golang/" + path + "@" + strings.ReplaceAll(version, "+", "%2B")
	return component{Type: kind, Ref: url, Name: path, Version: version, Package: url}
}

// serial is the UUID (RFC 9562, version 8) of a program with a checksum.
func serial(sum [sha256.Size]byte) string {
	sum[6], sum[8] = sum[6]&0x0f|0x80, sum[8]&0x3f|0x80
	return fmt.Sprintf("urn:uuid:%x-%x-%x-%x-%x", sum[:4], sum[4:6], sum[6:8], sum[8:10], sum[10:16])
}

// moduleFolders are where the module cache has the modules, by path@version.
func moduleFolders() (map[string]string, error) {
	out, err := exec.Command("go", "list", "-m", "-json", "all").Output()
	if err != nil {
		return nil, fmt.Errorf("go list: %w", err)
	}
	folders := map[string]string{}
	for d := json.NewDecoder(bytes.NewReader(out)); ; {
		var m struct{ Path, Version, Dir string }
		if err := d.Decode(&m); err == io.EOF {
			return folders, nil
		} else if err != nil {
			return nil, err
		}
		folders[m.Path+"@"+m.Version] = m.Dir
	}
}

// licences are known by words that only their texts have; the SPDX identifier of each.
var licences = []struct{ id, words string }{
	{"Apache-2.0", "Apache License Version 2.0"},
	{"MPL-2.0", "Mozilla Public License Version 2.0"},
	{"BSD-3-Clause", "Neither the name of"},
	{"BSD-2-Clause", "Redistribution and use in source and binary forms"},
	{"MIT", "Permission is hereby granted, free of charge, to any person obtaining a copy"},
	{"ISC", "Permission to use, copy, modify, and/or distribute this software for any purpose"},
}

// licenceIn tells the licence of a module; empty: it is not known.
func licenceIn(folder string) string {
	files, _ := filepath.Glob(filepath.Join(folder, "LICEN[CS]E*"))
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			continue
		}
		words := strings.Join(strings.Fields(string(text)), " ")
		for _, l := range licences {
			if strings.Contains(words, l.words) {
				return l.id
			}
		}
	}
	return ""
}
