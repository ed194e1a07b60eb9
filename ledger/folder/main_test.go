package folder

import (
	"fmt"
	"maps"
	"os"
	"testing"
)

// scratch is a folder for what tests share; it goes when they are done.
var scratch string

func TestMain(m *testing.M) {
	if os.Getenv(rulesVariable) == "windows" {
		here = windowsRules
	}
	maps.Copy(roles, systemRoles)
	if role := roles[os.Getenv(roleVariable)]; role != nil {
		if err := role(os.Getenv(dirVariable)); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
		os.Exit(0)
	}
	umask(0o027) // whatever the machine has
	os.Exit(run(m))
}

func run(m *testing.M) int {
	dir, err := os.MkdirTemp("", "folder-test")
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	defer os.RemoveAll(dir)
	scratch = dir
	return m.Run()
}
