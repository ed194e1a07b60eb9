//go:build unix

package main

import (
	"bytes"
	"encoding/csv"
	"os"
	"os/exec"
	"os/user"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"syscall"
	"testing"

	"putby/ledger/ledgertest"
)

// TestExportToPostgreSQL loads exports into a PostgreSQL that is made for it, and
// compares every row of its views with the reports.
func TestExportToPostgreSQL(t *testing.T) {
	if ledgertest.Small() {
		t.Skip("starting a database takes seconds")
	}
	server := startPostgreSQL(t)
	testViews(t, server.load)
}

// A postgreSQL is a private server, reached by a socket in its folder alone.
type postgreSQL struct {
	programs, dir string
	user          *syscall.Credential // not root, which it refuses
	databases     int
	database      string
}

// startPostgreSQL starts one that lasts as long as the test.
func startPostgreSQL(t *testing.T) *postgreSQL {
	t.Helper()
	installed, _ := filepath.Glob("/usr/lib/postgresql/*/bin/initdb") // as Debian has them
	if path, err := exec.LookPath("initdb"); err == nil {
		installed = append(installed, path)
	}
	_, err := exec.LookPath("psql")
	if len(installed) == 0 || err != nil {
		lacking(t, "PostgreSQL", "install Debian's package postgresql")
	}
	dir, err := os.MkdirTemp("", "putby-pg") // short, as the path of a socket must be
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.RemoveAll(dir) })
	s := &postgreSQL{programs: filepath.Dir(slices.Max(installed)), dir: dir}
	s.mayNotBeRoot(t)
	data := filepath.Join(dir, "data")
	s.run(t, "initdb", "-D", data, "-A", "trust", "-U", "putby", "-E", "UTF8", "--no-locale", "--no-sync")
	options := "-F -c listen_addresses='' -c unix_socket_directories='" + dir + "' -c max_wal_size=256MB"
	s.run(t, "pg_ctl", "-D", data, "-w", "-l", filepath.Join(dir, "log"), "-o", options, "start")
	t.Cleanup(func() { s.run(t, "pg_ctl", "-D", data, "-m", "immediate", "-w", "stop") })
	return s
}

// mayNotBeRoot has the server run as another user where the test is run by root.
func (s *postgreSQL) mayNotBeRoot(t *testing.T) {
	if os.Getuid() != 0 {
		return
	}
	nobody, err := user.Lookup("nobody")
	if err != nil {
		t.Fatal(err)
	}
	uid, _ := strconv.ParseUint(nobody.Uid, 10, 32)
	gid, _ := strconv.ParseUint(nobody.Gid, 10, 32)
	s.user = &syscall.Credential{Uid: uint32(uid), Gid: uint32(gid)}
	if err := os.Chown(s.dir, int(uid), int(gid)); err != nil {
		t.Fatal(err)
	}
}

// run runs a program of the server.
func (s *postgreSQL) run(t *testing.T, program string, args ...string) {
	t.Helper()
	cmd := exec.Command(filepath.Join(s.programs, program), args...)
	cmd.SysProcAttr, cmd.Dir = &syscall.SysProcAttr{Credential: s.user}, s.dir
	var said bytes.Buffer
	cmd.Stderr = &said
	if err := cmd.Run(); err != nil {
		log, _ := os.ReadFile(filepath.Join(s.dir, "log"))
		t.Fatalf("%s: %v\n%s%s", program, err, said.Bytes(), log)
	}
}

// load loads an export into a database of its own, as its help says.
func (s *postgreSQL) load(t *testing.T, dir string, queries []string) (results [][]map[string]string) {
	t.Helper()
	s.databases++
	s.database = "postgres"
	s.psql(t, "", "-c", "CREATE DATABASE household"+strconv.Itoa(s.databases))
	s.database = "household" + strconv.Itoa(s.databases)
	s.psql(t, dir, "-f", "load-postgresql.sql")
	for _, sql := range queries {
		results = append(results, s.query(t, sql))
	}
	return results
}

// psql returns what PostgreSQL's program for the terminal prints.
func (s *postgreSQL) psql(t *testing.T, dir string, args ...string) []byte {
	t.Helper()
	cmd := exec.Command("psql", append([]string{"-X", "-q", "-v", "ON_ERROR_STOP=1", "-h", s.dir, "-U", "putby", "-d", s.database}, args...)...)
	cmd.Dir = dir
	var out, said bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &said
	if err := cmd.Run(); err != nil {
		t.Fatalf("psql %v: %v\n%s", args, err, said.Bytes())
	}
	return out.Bytes()
}

func (s *postgreSQL) query(t *testing.T, sql string) []map[string]string {
	t.Helper()
	all, err := csv.NewReader(bytes.NewReader(s.psql(t, "", "--csv", "-c", sql))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var rows []map[string]string
	for _, cells := range all[1:] {
		row := map[string]string{}
		for i, cell := range cells {
			if cell != "" {
				row[strings.ToLower(all[0][i])] = cell
			}
		}
		rows = append(rows, row)
	}
	return rows
}
