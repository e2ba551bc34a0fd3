package job

import (
	"crypto/sha256"
	"hash"
	"io"
)

// Input is a file that a job was made from: the document itself or one that it
// names, the files that those name included. The same bytes have the same
// SHA256.
type Input struct {
	// File is the name as it was opened: relative to the document's folder.
	File   string
	Bytes  int64
	SHA256 [sha256.Size]byte
}

// ledger opens files and remembers what they held, in the order in which they
// were read to their end.
type ledger struct {
	files Files
	read  []Input
}

func (l *ledger) Open(name string) (io.ReadCloser, error) {
	r, err := l.files.Open(name)
	if err != nil {
		return nil, err
	}
	return &ledgerFile{ReadCloser: r, name: name, sum: sha256.New(), ledger: l}, nil
}

// ledgerFile is a file that is entered once it was read to its end.
type ledgerFile struct {
	io.ReadCloser
	name   string
	sum    hash.Hash
	size   int64
	ledger *ledger
	done   bool
}

func (f *ledgerFile) Read(p []byte) (int, error) {
	n, err := f.ReadCloser.Read(p)
	f.sum.Write(p[:n]) // a hash takes everything
	f.size += int64(n)
	if err == io.EOF && !f.done {
		f.done = true
		in := Input{File: f.name, Bytes: f.size}
		f.sum.Sum(in.SHA256[:0])
		f.ledger.enter(in)
	}
	return n, err
}

// enter adds a file, once: the same file may be read for two purposes.
func (l *ledger) enter(in Input) {
	for _, had := range l.read {
		if had == in {
			return
		}
	}
	l.read = append(l.read, in)
}
