package wmm_test

import (
	"errors"
	"strings"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/wmm"
)

// A nil or zero model, set or evaluator returns an error. It does not panic.
func TestMissingModels(t *testing.T) {
	date, place := onYear(2026), at(47, -19)
	for name, m := range map[string]*wmm.Model{"nil": nil, "zero": new(wmm.Model)} {
		_, err1 := m.VariationAt(place, date)
		_, err2 := m.ExplainVariation(place, date)
		_, err3 := m.On(date)
		_, err4 := m.InYear(0)
		_, err5 := m.Extrapolate(0)
		_, err6 := wmm.NewSet(m)
		_, err7 := wmm.Models().With(m)
		wantMissing(t, name+" model", "the Model is nil or zero", err1, err2, err3, err4, err5)
		wantMissing(t, "set of a "+name+" model", "a set without models, or with a nil or zero Model", err6, err7)
	}
	for name, s := range map[string]*wmm.Set{"nil": nil, "zero": new(wmm.Set)} {
		_, err1 := s.VariationAt(place, date)
		_, err2 := s.ExplainVariation(place, date)
		_, err3 := s.On(date)
		_, err4 := s.InYear(2026)
		_, err6 := s.With()
		wantMissing(t, name+" set", "the Set is nil or zero", err1, err2, err3, err4)
		wantMissing(t, name+" set with nothing more", "a set without models, or with a nil or zero Model", err6)
		if len(s.Models()) != 0 {
			t.Errorf("models of a %s set: %v", name, s.Models())
		}
		if one, err := s.With(wmm.WMM2025()); err != nil || len(one.Models()) != 1 {
			t.Errorf("a %s set with one model: %v, %v", name, one, err)
		}
	}
	_, err := wmm.NewSet()
	wantMissing(t, "no models", "a set without models, or with a nil or zero Model", err)
	for name, e := range map[string]*wmm.Evaluator{"nil": nil, "zero": new(wmm.Evaluator)} {
		_, err1 := e.Field(place, 0)
		_, _, err2 := e.FieldAndRates(place, 0)
		err3 := e.Rows(world(30*angle.Degree), func(wmm.Row) error { return nil })
		_, err4 := e.Isogonics(world(30*angle.Degree), 0)
		wantMissing(t, name+" evaluator", "the Evaluator is nil or zero", err1, err2, err3, err4)
	}
	if zero := new(wmm.Evaluator); (*wmm.Model)(nil).WithUncertainty(wmm.UncertaintyModel{}) != nil || zero.Model() != nil || new(wmm.Model).Degree() != 0 {
		t.Error("a zero evaluator or model is not empty")
	}
}

func wantMissing(t *testing.T, name, asked string, failures ...error) {
	t.Helper()
	for i, err := range failures {
		e, ok := errors.AsType[*wmm.Error](err)
		if !ok || e.Kind != wmm.MissingModel || !strings.HasPrefix(err.Error(), "wmm: "+asked+"; use ") {
			t.Errorf("%s, call %d: %v", name, i+1, err)
		}
	}
}

func TestNoModelIsEmpty(t *testing.T) {
	var m *wmm.Model
	from, until := m.Valid()
	if m.Name() != "" || from != 0 || until != 0 || m.Degree() > 0 || m.Uncertainty() != (wmm.UncertaintyModel{}) || m.String() != "no model" {
		t.Errorf("%v, degree %d", m, m.Degree())
	}
	var e *wmm.Evaluator
	if e.Model() != nil || e.Year() != 0 {
		t.Errorf("%v", e)
	}
}

func TestNilReaderOrFunctionIsAnError(t *testing.T) {
	_, err1 := wmm.ReadCOF(nil)
	_, err2 := wmm.ReadIGRF(nil)
	for _, err := range []error{err1, err2} {
		if e, ok := errors.AsType[*wmm.Error](err); !ok || !strings.Contains(e.Reason, "nil") {
			t.Errorf("%v", err)
		}
	}
	e := inYear(t, wmm.WMM2025(), 2026)
	err := e.Rows(world(30*angle.Degree), nil)
	if e, ok := errors.AsType[*wmm.Error](err); !ok || !strings.Contains(e.Reason, "nil") {
		t.Errorf("%v", err)
	}
}
