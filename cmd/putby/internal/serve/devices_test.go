package serve

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/tls"
	"crypto/x509"
	"math/big"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// Other accounts of the machine know the port, and nothing else.
func TestOtherAccountsAreKeptOut(t *testing.T) {
	out := serveAt(t, sample(t), "127.0.0.1:0")
	home, _, _ := strings.Cut(invitation(t, out), "?")
	for _, path := range []string{"", "pack", "worth", "saved/x", "?token=", "?token=WRONG"} {
		if answer, text := ask(t, "GET", home+path, ""); answer.StatusCode != http.StatusForbidden || strings.Contains(text, "Chicken broth") {
			t.Errorf("%q without the link: %s", path, answer.Status)
		}
	}
	if link := letIn(t, out); link != home {
		t.Errorf("let in at %s, not at %s", link, home)
	}
	if answer, _ := ask(t, "GET", home, ""); answer.StatusCode != http.StatusOK {
		t.Errorf("let in: %s", answer.Status)
	}
}

// A device stays let in when the server is started again, until it is removed:
// then it is out at once. What the ledger keeps lets nobody in.
func TestDevicesStay(t *testing.T) {
	dir := sample(t)
	first, _ := start(t, dir, "127.0.0.1:0")
	cookie := cookieOf(first)
	again, _, _ := strings.Cut(invitation(t, serveAt(t, dir, "127.0.0.1:0")), "?")
	if answer, _ := ask(t, "GET", again, "", "Cookie", cookie); answer.StatusCode != http.StatusOK {
		t.Fatalf("after the server was started again: %s", answer.Status)
	}
	list, err := Devices(dir)
	if err != nil || len(list) != 1 || list[0].Number != 1 || !strings.Contains(list[0].Name, "Go-http-client") {
		t.Fatalf("devices: %+v, %v", list, err)
	}
	data, err := os.ReadFile(filepath.Join(dir, ".putby", devicesFile))
	name, secret, _ := strings.Cut(cookie, "=")
	if err != nil || strings.Contains(string(data), secret) {
		t.Errorf("the ledger keeps what lets a device in: %s, %v", data, err)
	}
	if answer, _ := ask(t, "GET", again, "", "Cookie", name+"="+list[0].Hash); answer.StatusCode != http.StatusForbidden {
		t.Errorf("the hash that is kept lets in: %s", answer.Status)
	}
	if err := RemoveDevice(t.Context(), dir, 2); err == nil || !strings.Contains(err.Error(), "no device has the number 2") {
		t.Errorf("removing one that is not there: %v", err)
	}
	if err := RemoveDevice(t.Context(), dir, 1); err != nil {
		t.Fatal(err)
	}
	for _, link := range []string{first, again} {
		if answer, _ := ask(t, "GET", link, "", "Cookie", cookie); answer.StatusCode != http.StatusForbidden {
			t.Errorf("a device that was removed: %s", answer.Status)
		}
	}
	if _, err := admit(t.Context(), dir, strings.Repeat("é", 200), noon); err != nil {
		t.Fatal(err)
	}
	if list, _ := Devices(dir); len(list) != 1 || list[0].Number != 2 || list[0].Name != strings.Repeat("é", longestName/2) {
		t.Errorf("devices: %+v; want a new number and a name that is cut whole", list)
	}
}

// A list that cannot be read lets nobody in, and says what to do.
func TestDevicesDamaged(t *testing.T) {
	dir := sample(t)
	link, _ := start(t, dir, "127.0.0.1:0")
	if err := os.WriteFile(filepath.Join(dir, ".putby", devicesFile), []byte("{"), 0o600); err != nil {
		t.Fatal(err)
	}
	answer, text := ask(t, "GET", link, "")
	if answer.StatusCode != http.StatusServiceUnavailable || !strings.Contains(text, "delete that file") {
		t.Errorf("%s: %s", answer.Status, text)
	}
}

// With a certificate all is encrypted, links and forms go by https, and the
// names that it proves are the server's.
func TestEncrypted(t *testing.T) {
	cert := certificate(t, "pantry.test")
	out := serveAt(t, sample(t), "127.0.0.1:0", func(h *Served) { h.TLS = cert; h.Code = true })
	if !strings.Contains(out.String(), "https://pantry.test:") || !strings.Contains(out.String(), "█") || strings.Contains(out.String(), "read along") {
		t.Errorf("printed: %s", out)
	}
	link := invitation(t, out)
	if !strings.HasPrefix(link, "https://127.0.0.1:") {
		t.Fatalf("the link is %s", link)
	}
	roots := x509.NewCertPool()
	roots.AddCert(cert.Leaf)
	client := http.Client{Transport: &http.Transport{TLSClientConfig: &tls.Config{RootCAs: roots, ServerName: "pantry.test"}}}
	answer, err := client.Get(link)
	if err != nil {
		t.Fatal(err)
	}
	answer.Body.Close()
	given := answer.Cookies()
	if answer.StatusCode != http.StatusOK || len(given) != 1 || !given[0].Secure {
		t.Fatalf("%s with cookies %v", answer.Status, given)
	}
	origin, _, _ := strings.Cut(link, "/?")
	for _, c := range []struct {
		host, origin string
		status       int
	}{
		{"", origin, http.StatusOK},
		{"", "http" + strings.TrimPrefix(origin, "https"), http.StatusForbidden},
		{"pantry.test:" + origin[strings.LastIndex(origin, ":")+1:], "", http.StatusForbidden},
		{"shed.test:" + origin[strings.LastIndex(origin, ":")+1:], origin, http.StatusMisdirectedRequest},
	} {
		r, err := http.NewRequest("POST", origin+"/take", strings.NewReader("do=save"))
		if err != nil {
			t.Fatal(err)
		}
		r.Host = c.host
		r.AddCookie(given[0])
		if c.origin != "" {
			r.Header.Set("Origin", c.origin)
		}
		answer, err := client.Do(r)
		if err != nil {
			t.Fatal(err)
		}
		answer.Body.Close()
		if answer.StatusCode != c.status {
			t.Errorf("host %q from %q: %s, want %d", c.host, c.origin, answer.Status, c.status)
		}
	}
}

// certificate makes one for a name and this machine.
func certificate(t *testing.T, name string) *tls.Certificate {
	t.Helper()
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	of := &x509.Certificate{
		SerialNumber: big.NewInt(1), DNSNames: []string{name}, IPAddresses: []net.IP{net.IPv4(127, 0, 0, 1)},
		NotBefore: time.Now().Add(-time.Hour), NotAfter: time.Now().Add(time.Hour), IsCA: true, BasicConstraintsValid: true,
	}
	der, err := x509.CreateCertificate(rand.Reader, of, of, &key.PublicKey, key)
	if err != nil {
		t.Fatal(err)
	}
	leaf, err := x509.ParseCertificate(der)
	if err != nil {
		t.Fatal(err)
	}
	return &tls.Certificate{Certificate: [][]byte{der}, PrivateKey: key, Leaf: leaf}
}
