package browser

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"sync"
	"time"
)

// patience is how long the browser may take to answer.
const patience = 60 * time.Second

// A message is one of the debugging protocol: a command, its answer or an event.
type message struct {
	ID      int             `json:"id,omitempty"`
	Session string          `json:"sessionId,omitempty"`
	Method  string          `json:"method,omitempty"`
	Params  any             `json:"params,omitempty"`
	Result  json.RawMessage `json:"result,omitempty"`
	Error   *struct {
		Message string `json:"message"`
	} `json:"error,omitempty"`
}

// An event is a message that the browser sends by itself.
type event struct {
	Session string
	Method  string
	Params  json.RawMessage
}

// A pipe carries messages, each ended by a zero byte.
type pipe struct {
	to     io.Writer
	mu     sync.Mutex
	last   int
	wait   map[int]chan message
	events func(event)
}

func newPipe(to io.Writer, from io.Reader, events func(event)) *pipe {
	p := &pipe{to: to, wait: map[int]chan message{}, events: events}
	go p.read(bufio.NewReader(from))
	return p
}

// read hands answers to those who wait for them, and events on, until the
// browser ends.
func (p *pipe) read(from *bufio.Reader) {
	for {
		data, err := from.ReadBytes(0)
		if err != nil {
			return
		}
		var m struct {
			message
			Params json.RawMessage `json:"params"`
		}
		if json.Unmarshal(data[:len(data)-1], &m) != nil {
			continue
		}
		if m.ID == 0 {
			p.events(event{m.Session, m.Method, m.Params})
			continue
		}
		p.mu.Lock()
		answer := p.wait[m.ID]
		delete(p.wait, m.ID)
		p.mu.Unlock()
		if answer != nil {
			answer <- m.message
		}
	}
}

// call sends a command and decodes its answer into result, unless that is nil.
func (p *pipe) call(session, method string, params, result any) error {
	p.mu.Lock()
	p.last++
	id, answer := p.last, make(chan message, 1)
	p.wait[id] = answer
	data, err := json.Marshal(message{ID: id, Session: session, Method: method, Params: params})
	if err == nil {
		_, err = p.to.Write(append(data, 0))
	}
	p.mu.Unlock()
	if err != nil {
		return fmt.Errorf("%s: %w", method, err)
	}
	select {
	case m := <-answer:
		if m.Error != nil {
			return fmt.Errorf("%s: %s", method, m.Error.Message)
		}
		if result == nil {
			return nil
		}
		return json.Unmarshal(m.Result, result)
	case <-time.After(patience):
		return fmt.Errorf("%s: no answer in %v", method, patience)
	}
}
