package main

import (
	"bytes"
	"os"
	"strings"
	"testing"
	"time"
)

func TestZZSmall(t *testing.T) {
	args := strings.Fields(os.Getenv("ZZ"))
	var out bytes.Buffer
	run(t.Context(), args, environment{stdin: strings.NewReader(""), stdout: &out, stderr: &out, getenv: os.Getenv, now: time.Now})
	t.Log(out.Len())
}
