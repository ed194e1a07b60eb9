package serve

import (
	"crypto/tls"
	"net"
	"net/netip"
	"slices"
	"strconv"
	"strings"
)

// hosts are the addresses at which a server can be asked.
type hosts struct {
	at   *net.TCPAddr
	cert *tls.Certificate // that proves names; nil: none
}

// names returns the addresses to open, with the port.
func (d hosts) names() (list []string) {
	if d.cert != nil {
		for _, name := range d.cert.Leaf.DNSNames {
			if !strings.HasPrefix(name, "*") {
				list = append(list, net.JoinHostPort(name, strconv.Itoa(d.at.Port)))
			}
		}
	}
	if !d.at.IP.IsUnspecified() {
		return append(list, d.at.String())
	}
	for _, ip := range ownAddresses() {
		if !ip.IsLoopback() && !ip.IsLinkLocalUnicast() {
			list = append(list, netip.AddrPortFrom(ip, uint16(d.at.Port)).String())
		}
	}
	return append(list, net.JoinHostPort("127.0.0.1", strconv.Itoa(d.at.Port)))
}

// opens reports whether a Host is an address of the server: with its port, and
// by number, since a name may be anybody's that was pointed here. Only
// localhost is a name that nobody else can have, and those that the server's own
// certificate proves to be its.
func (d hosts) opens(host string) bool {
	name, port, err := net.SplitHostPort(host)
	if err != nil {
		name, port = host, "80" // browsers leave the usual port of http out
	}
	if port != strconv.Itoa(d.at.Port) {
		return false
	}
	here, _ := netip.AddrFromSlice(d.at.IP)
	here = here.Unmap()
	if name == "localhost" {
		return here.IsLoopback() || here.IsUnspecified()
	}
	if d.cert != nil && d.cert.Leaf.VerifyHostname(name) == nil {
		return true
	}
	ip, err := netip.ParseAddr(name)
	if err != nil {
		return false
	}
	ip = ip.Unmap()
	if !here.IsUnspecified() {
		return ip == here
	}
	return slices.Contains(ownAddresses(), ip)
}

// ownAddresses are the addresses of this machine now.
func ownAddresses() (list []netip.Addr) {
	addresses, err := net.InterfaceAddrs()
	if err != nil {
		return nil
	}
	for _, a := range addresses {
		if p, err := netip.ParsePrefix(a.String()); err == nil {
			list = append(list, p.Addr().Unmap())
		}
	}
	return list
}
