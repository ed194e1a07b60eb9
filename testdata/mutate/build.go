package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// A workshop is a folder with one program of tests for each package, which hold all
// the chosen changes. A changed function begins with its changed copies, and a file
// says which of them counts: so the compiler and linker are waited for once, not once
// a change.
type workshop struct {
	dir     string
	overlay string // files that stand in for those of the repository
	which   string // the file that holds the number of the change that counts
}

// newWorkshop writes files with all changes and leaves out the changes that do not
// compile.
func newWorkshop(p program, changes []change) (*workshop, []change, error) {
	dir, err := os.MkdirTemp("", "putby-mutate")
	if err != nil {
		return nil, nil, err
	}
	w := &workshop{dir: dir, overlay: filepath.Join(dir, "overlay.json"), which: filepath.Join(dir, "which")}
	for {
		owners, err := w.write(p.dir, changes)
		if err != nil {
			return w, nil, err
		}
		out, err := exec.Command("go", "build", "-gcflags=-e", "-overlay", w.overlay, p.path).CombinedOutput()
		if err == nil {
			return w, changes, nil
		}
		wrong := wrongChanges(out, owners)
		if len(wrong) == 0 {
			return w, nil, fmt.Errorf("%s does not build:\n%s", p.path, out)
		}
		changes = slices.DeleteFunc(changes, func(c change) bool { return wrong[c.number] })
	}
}

// An owner is the change that lines of a written file belong to.
type owner struct{ from, to, number int }

var complaint = regexp.MustCompile(`(?m)([^/\s]+\.go):(\d+):\d+: `)

// wrongChanges returns the numbers of the changes that the compiler complains of.
func wrongChanges(out []byte, owners map[string][]owner) map[int]bool {
	wrong := map[int]bool{}
	for _, m := range complaint.FindAllSubmatch(out, -1) {
		line, _ := strconv.Atoi(string(m[2]))
		for _, o := range owners[string(m[1])] {
			if line >= o.from && line <= o.to {
				wrong[o.number] = true
			}
		}
	}
	return wrong
}

// write writes the changed files and what has them stand in for the real ones.
func (w *workshop) write(pkgDir string, changes []change) (map[string][]owner, error) {
	replace, owners := map[string]string{}, map[string][]owner{}
	byFile := map[string][]change{}
	for _, c := range changes {
		byFile[c.file] = append(byFile[c.file], c)
	}
	put := func(name, text string) error {
		replace[filepath.Join(pkgDir, name)] = filepath.Join(w.dir, name)
		return os.WriteFile(filepath.Join(w.dir, name), []byte(text), 0o600)
	}
	name := "" // of the package
	for path, list := range byFile {
		source, err := os.ReadFile(path)
		if err != nil {
			return nil, err
		}
		base := filepath.Base(path)
		var text string
		text, owners[base] = withChanges(string(source), list)
		if err := put(base, text); err != nil {
			return nil, err
		}
		name = list[0].pkg
	}
	if name != "" {
		if err := put("putby_mutate.go", fmt.Sprintf(chooser, name, w.which)); err != nil {
			return nil, err
		}
	}
	data, err := json.Marshal(map[string]any{"Replace": replace})
	if err != nil {
		return nil, err
	}
	return owners, os.WriteFile(w.overlay, data, 0o600)
}

// chooser is the file that has a package find out which change counts. Where none
// does, it notes which are reached.
const chooser = `package %s

import (
	"os"
	"path/filepath"
	"strconv"
)

var changeThatCounts, changesReached = func() (int, string) {
	data, _ := os.ReadFile(%q)
	n, _ := strconv.Atoi(string(data))
	return n, os.Getenv("PUTBY_REACHED")
}()

func changeCounts(n int) bool { return n == changeThatCounts || changesReached != "" && changeReached(n) }

func changeReached(n int) bool {
	name := filepath.Join(changesReached, strconv.Itoa(n))
	if _, err := os.Lstat(name); err != nil {
		os.WriteFile(name, nil, 0o600)
	}
	return false
}
`

// withChanges has each changed function begin with its changed copies, and says which
// lines are whose.
func withChanges(source string, list []change) (string, []owner) {
	slices.SortStableFunc(list, func(a, b change) int { return a.body - b.body })
	var out bytes.Buffer
	var owners []owner
	at := 0
	for _, c := range list {
		out.WriteString(source[at : c.body+1])
		at = c.body + 1
		line := 1 + bytes.Count(out.Bytes(), []byte("\n"))
		body := source[c.body:c.from] + c.text + source[c.to:c.end]
		call, end := "return func() "+c.results, "()"
		if c.results == "" {
			call, end = "func()", "(); return"
		}
		copied := fmt.Sprintf("\nif changeCounts(%d) { %s %s%s }\n", c.number, call, body, end)
		out.WriteString(copied)
		owners = append(owners, owner{line, line + strings.Count(copied, "\n"), c.number})
	}
	out.WriteString(source[at:])
	return out.String(), owners
}

// choose says which change counts from now on; 0 is none.
func (w *workshop) choose(number int) error {
	return os.WriteFile(w.which, []byte(strconv.Itoa(number)), 0o600)
}
