package conformance

// Provenance says in a few words what stands behind a case. Published worked examples count
// most: a source printed both the question and the answer. The others are in the order of
// [Provenances].
func Provenance(s Source, c Case) string {
	switch {
	case s.Kind == CommonPractice:
		return "common practice"
	case s.Kind == FromMemory:
		return "from memory"
	case s.Kind == TeachingPage:
		return "teaching page"
	case s.Kind == Generated:
		return "generated"
	case c.Operation == "field.evaluate" && c.Standing == TableCell:
		return "model row"
	case c.Standing == WorkedExample:
		return "worked example"
	case c.Standing == TableCell:
		return "table"
	case c.Standing == AnswerRecomputed:
		return "answer recomputed"
	case c.Standing == RuleApplied:
		return "rule applied"
	}
	return "fact"
}

// Provenances returns what [Provenance] can say, the most telling first: the first six are
// of published sources.
func Provenances() []string {
	return []string{
		"worked example", "table", "fact", "answer recomputed", "rule applied", "model row",
		"from memory", "common practice", "teaching page", "generated",
	}
}
