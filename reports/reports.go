// Package reports turns a plan into what people read and what other programs take in: text for a terminal, JSON,
// and CSV. It plans nothing and rounds only what it prints. Every report is deterministic: the same plan gives
// the same bytes, whatever the machine; the only field that may differ between two runs is `seconds` in the JSON.
package reports
