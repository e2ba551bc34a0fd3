// Package examples holds the example jobs with all their files, so that the
// one program carries them. Shops, parts and arms are invented.
package examples

import "embed"

// Files are the examples: one folder a job with its job.yaml, and arms with
// the URDF files that they share.
//
//go:embed */*
var Files embed.FS
