package serve

import (
	"context"
	"crypto/rand"
	"crypto/sha256"
	"crypto/subtle"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"time"

	"putby/ledger"
	"putby/ledger/folder"
)

// devicesFile is where a ledger keeps who was let in, beside its records.
const devicesFile = "devices.json"

// A Device is a browser that was let in. Of the session that its cookie holds
// only the hash is kept, from which the cookie cannot be made.
type Device struct {
	Number int       `json:"number"` // from 1, in the order in which they were let in
	Since  time.Time `json:"since"`  // when it was let in, to the second, UTC
	Name   string    `json:"name"`   // what the browser called itself
	Hash   string    `json:"hash"`   // SHA-256 of the session, in hexadecimal
}

// guests are the devices of a ledger.
type guests struct {
	Cookie  string   `json:"cookie"` // what the ledger's cookie is called: its own, since browsers do not tell the ports of a machine apart
	Last    int      `json:"last"`   // number given last; none is given again
	Devices []Device `json:"devices"`
}

// mostDevices is how many devices are let in at once; the oldest makes room.
const mostDevices = 50

// longestName is how much of a browser's name is kept.
const longestName = 160

func readGuests(data []byte) (g guests, err error) {
	if len(data) == 0 {
		return guests{}, nil
	}
	if err := json.Unmarshal(data, &g); err != nil {
		return g, &ledger.Fault{Kind: folder.ErrDamaged, What: "the list of devices that were let in, .putby/" + devicesFile + ", cannot be read",
			Hint: "delete that file: every device is then let in anew", Err: err}
	}
	return g, nil
}

// Devices lists the browsers that a ledger lets in, the first first.
func Devices(dir string) ([]Device, error) {
	g, err := guestsOf(dir)
	return g.Devices, err
}

func guestsOf(dir string) (guests, error) {
	data, err := folder.ReadAside(dir, devicesFile)
	if err != nil {
		return guests{}, err
	}
	return readGuests(data)
}

// editGuests changes who is let in.
func editGuests(ctx context.Context, dir string, edit func(*guests) error) error {
	return folder.EditAside(ctx, dir, devicesFile, func(data []byte) ([]byte, error) {
		g, err := readGuests(data)
		if err != nil {
			return nil, err
		}
		if g.Cookie == "" {
			g.Cookie = "putby-" + rand.Text()[:8]
		}
		if err := edit(&g); err != nil {
			return nil, err
		}
		data, err = json.MarshalIndent(g, "", "  ")
		return append(data, '\n'), err
	})
}

// RemoveDevice shuts out a device by its number, also of a server that runs.
func RemoveDevice(ctx context.Context, dir string, number int) error {
	return editGuests(ctx, dir, func(g *guests) error {
		i := slices.IndexFunc(g.Devices, func(d Device) bool { return d.Number == number })
		if i < 0 {
			return fmt.Errorf("no device has the number %d: putby serve devices lists those there are", number)
		}
		g.Devices = slices.Delete(g.Devices, i, i+1)
		return nil
	})
}

// admit lets a browser in, and returns its session.
func admit(ctx context.Context, dir, name string, now time.Time) (session string, err error) {
	session = rand.Text()
	err = editGuests(ctx, dir, func(g *guests) error {
		g.Last++
		g.Devices = append(g.Devices, Device{Number: g.Last, Since: now.UTC().Truncate(time.Second), Name: strings.ToValidUTF8(name[:min(len(name), longestName)], ""), Hash: hashOf(session)})
		g.Devices = g.Devices[max(0, len(g.Devices)-mostDevices):]
		return nil
	})
	return session, err
}

// knows reports whether a session is that of a device that is let in.
func (g guests) knows(session string) bool {
	hash := []byte(hashOf(session))
	return slices.ContainsFunc(g.Devices, func(d Device) bool { return subtle.ConstantTimeCompare([]byte(d.Hash), hash) == 1 })
}

func hashOf(session string) string {
	sum := sha256.Sum256([]byte(session))
	return hex.EncodeToString(sum[:])
}
