package serve

import (
	"net"
	"net/url"
	"testing"
)

// TestSpareConnection: a connection on which nothing is asked does not keep the server
// from ending, nor is it told as a request that was not done: the server that start
// made would say so at the end of the test.
func TestSpareConnection(t *testing.T) {
	var spare net.Conn
	t.Cleanup(func() { spare.Close() }) // after the server has ended
	link, _ := start(t, sample(t), "127.0.0.1:0")
	at, err := url.Parse(link)
	if err != nil {
		t.Fatal(err)
	}
	if spare, err = net.Dial("tcp", at.Host); err != nil {
		t.Fatal(err)
	}
	ask(t, "GET", link, "") // the server has the other one by now
}
