package plan

import (
	"cmp"
	"fmt"
	"slices"
)

// Lacks returns what is still to be said before the plan can do its work, in the order of the pages.
func Lacks(p Plan) Problems {
	var out Problems
	lack := func(missing bool, path string, code Code, facts ...any) {
		if missing {
			out = append(out, Problem{Code: code, Level: Lack, Path: path, Facts: facts})
		}
	}
	lack(p.Title == "", "title", LackTitle)
	lack(p.Brief.Client == "", "brief.client", LackClient)
	lack(len(p.Brief.Deliverables) == 0, "brief.deliverables", LackDeliverables)
	lack(p.Property.Position == nil && p.NeedsSun(), "property.position", LackPosition)
	lack(p.Property.Zone == "" && p.NeedsSun(), "property.zone", LackZone)
	lack(len(p.Property.Faces) == 0, "property.faces", LackFaces)
	lack(len(p.Property.Spaces) == 0, "property.spaces", LackSpaces)
	lack(len(p.Scenes) == 0, "scenes", LackScenes)
	for i, s := range p.Scenes {
		at := fmt.Sprintf("scenes[%d]", i)
		uses := s.Wish.Kind.Or().Uses()
		space, _ := p.Space(s.Space)
		byWindow := s.Wish.Kind == SunPatch || s.Wish.Kind == SoftWindow
		lack(s.Space == "", at+".space", LackSpaceOf, s.Name())
		lack(slices.Contains(uses, FigureFace) && s.Wish.Face == "", at+".light.face", LackFaceOf, s.Name())
		lack(s.Wish.Kind.NeedsCamera() && s.Wish.Camera == nil, at+".light.camera", LackCameraOf, s.Name())
		lack(byWindow && s.Space != "" && len(space.Faces) == 0, at+".light.wish", LackWindowsOf, s.Name())
		lack(s.Shoot <= 0, at+".shoot", LackMinutesOf, s.Name())
	}
	if sum, film := p.seconds(); len(p.Scenes) > 0 && sum < film {
		lack(true, "scenes", SecondsShort, sum, film)
	}
	lack(len(p.People) == 0, "people", LackPeople)
	for i, q := range p.People {
		lack(q.MinorOn(p.Shooting.LastDate()) && q.Guardian == "", fmt.Sprintf("people[%d].guardian", i), LackGuardian, q.Called())
	}
	lack(len(p.Shooting.Dates) == 0 && p.Shooting.Date.IsZero(), "shooting.dates", LackDates)
	lack(p.Papers.Hospital == "", "papers.hospital", LackHospital)
	lack(p.Papers.Access == "", "papers.access", LackAccess)
	return out
}

// NeedsSun reports whether no day can be placed without the position: unless every scene says by the clock when it can be
// shot, in values or limits, and none wishes for light besides. Without a zone a plan that needs no sun keeps UTC.
func (p *Plan) NeedsSun() bool {
	bySun := func(s Scene) bool {
		byClock := s.From.IsSet() || s.To.IsSet()
		return len(s.Values) == 0 && (s.Wish.Kind.Or() != Any || !byClock)
	}
	return len(p.Scenes) == 0 || slices.ContainsFunc(p.Scenes, bySun)
}

// seconds is what the scenes add up to on screen, and the running time of the longest film that is to be delivered.
func (p *Plan) seconds() (sum, film int) {
	for _, s := range p.Scenes {
		sum += s.Seconds
	}
	longest := slices.MaxFunc(append([]Deliverable{{}}, p.Brief.Deliverables...), func(a, b Deliverable) int { return cmp.Compare(a.Seconds, b.Seconds) })
	return sum, longest.Seconds
}
