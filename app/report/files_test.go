package report

// The shapes of files as their readers have them: what is promised.

// bandedJSON is a value with its 95 % half-width.
type bandedJSON struct {
	Value float64  `json:"value"`
	Band  *float64 `json:"band_95"`
}

// partJSON is one part of a toe curve.
type partJSON struct {
	Name    string      `json:"name"`
	Per     *bandedJSON `json:"per,omitempty"`
	PerUnit string      `json:"per_unit,omitempty"`
	AtEnd   bandedJSON  `json:"at_end_deg"`
	AtRim   *bandedJSON `json:"at_end_across_width_mm,omitempty"`
	Move    *bandedJSON `json:"cure_mm,omitempty"`
	Decided bool        `json:"decided"`
	Words   string      `json:"words"`
}

type diagnosisJSON struct {
	From   float64    `json:"from_mm"`
	To     float64    `json:"to_mm"`
	End    float64    `json:"end_mm"`
	Change float64    `json:"max_toe_change_deg"`
	At     float64    `json:"max_toe_change_at_mm"`
	Parts  []partJSON `json:"parts"`
}

type moveJSON struct {
	Name  string   `json:"name"`
	Words string   `json:"words"`
	From  float64  `json:"from_mm"`
	To    float64  `json:"to_mm"`
	By    float64  `json:"by_mm"`
	Band  *float64 `json:"band_95_mm"`
	Min   float64  `json:"min_mm"`
	Max   float64  `json:"max_mm"`
	Limit string   `json:"stands_at"`
	Exact float64  `json:"by_exactly_mm"`
	// Off is the building error and the room that the next three are for.
	Off  float64  `json:"off_mm"`
	More *float64 `json:"max_distance_with_more_room_deg"`
	// What a building error adds to the largest distance, deg; null where it is out
	// of reach.
	Plus  *float64 `json:"extra_for_more_deg"`
	Minus *float64 `json:"extra_for_less_deg"`
}

type stackJSON struct {
	Pieces []float64 `json:"pieces_mm"`
	Height float64   `json:"height_mm"`
	Raise  float64   `json:"raise_mm"`
	Tall   bool      `json:"tall"`
	Bolt   *float64  `json:"grip_and_stack_mm"`
	Rod    float64   `json:"tie_rod_mm"`
	Change float64   `json:"max_toe_change_deg"`
	Miss   float64   `json:"max_distance_deg"`
	Curve  []float64 `json:"toe_change_deg"`
	Room   roomJSON  `json:"clearance"`
}

// roomJSON is how the wheel stands with what is offered.
type roomJSON struct {
	Touches *bool  `json:"touches"` // null where it is not known
	Words   string `json:"words"`
}

type tuneJSON struct {
	Job     string  `json:"job"`
	Variant string  `json:"variant"`
	Over    string  `json:"over"`
	From    float64 `json:"from"`
	To      float64 `json:"to"`
	Unit    string  `json:"from_to_unit"`
	Slope   float64 `json:"wanted_slope"`
	SlopeIn string  `json:"wanted_slope_unit"`
	Within  float64 `json:"measured_within_mm"`
	Width   float64 `json:"gauge_width_mm"`

	Before     float64        `json:"before_max_toe_change_deg"`
	BeforeAt   float64        `json:"before_max_toe_change_at"`
	After      float64        `json:"after_max_toe_change_deg"`
	AfterAt    float64        `json:"after_max_toe_change_at"`
	BeforeMiss float64        `json:"before_max_distance_deg"`
	AfterMiss  float64        `json:"after_max_distance_deg"`
	Least      float64        `json:"least_max_distance_deg"`
	Moves      []moveJSON     `json:"moves"`
	RodFrom    float64        `json:"tie_rod_from_mm"`
	RodTo      float64        `json:"tie_rod_to_mm"`
	Diagnosis  *diagnosisJSON `json:"diagnosis"`
	Left       *diagnosisJSON `json:"what_is_left"`
	Room       roomJSON       `json:"clearance"`
	Stacks     []stackJSON    `json:"stacks"`
	Curves     curvesJSON     `json:"toe_curves"`
	Notes      []string       `json:"notes"`
	Caution    string         `json:"caution"`
}

type curvesJSON struct {
	At     []float64 `json:"at"`
	Before []float64 `json:"before_toe_change_deg"`
	After  []float64 `json:"after_toe_change_deg"`
}

type threadJSON struct {
	Diameter float64 `json:"diameter_mm"`
	Pitch    float64 `json:"pitch_mm"`
	Engaged  float64 `json:"engaged_mm"`
	Out      float64 `json:"engaged_fully_out_mm"`
	Least    float64 `json:"least_mm"`
	Short    bool    `json:"too_short"`
	ShortOut bool    `json:"too_short_fully_out"`
}

type effectJSON struct {
	Key   string   `json:"key"`
	Value *float64 `json:"per_unit"`
	Unit  string   `json:"unit"`
}

type adjusterJSON struct {
	Name    string       `json:"name"`
	Kind    string       `json:"kind"`
	Unit    string       `json:"unit"`
	Min     float64      `json:"min"`
	Max     float64      `json:"max"`
	Sets    string       `json:"sets"`
	Effects []effectJSON `json:"effects"`
	Threads []threadJSON `json:"threads"`
}

type wishJSON struct {
	Key     string  `json:"key"`
	Wished  float64 `json:"wished_deg"`
	Reached float64 `json:"reached_deg"`
	AsSet   float64 `json:"as_set_deg"`
	Left    float64 `json:"left_deg"`
}

type setJSON struct {
	Name    string   `json:"name"`
	By      float64  `json:"by"`
	Set     float64  `json:"set_by"`
	Unit    string   `json:"unit"`
	StandAt string   `json:"stands_at"`
	Short   bool     `json:"thread_too_short"`
	Bolt    *float64 `json:"bolt_from_middle_deg"`
}

type settingJSON struct {
	Met    bool       `json:"met"`
	Wishes []wishJSON `json:"wishes"`
	Sets   []setJSON  `json:"sets"`
	Room   roomJSON   `json:"clearance"`
}

type adjustJSON struct {
	Job       string         `json:"job"`
	Variant   string         `json:"variant"`
	Adjusters []adjusterJSON `json:"adjusters"`
	Order     []string       `json:"order"`
	Setting   *settingJSON   `json:"setting"`
	Notes     []string       `json:"notes"`
	Caution   string         `json:"caution"`
}

type correctionJSON struct {
	Point       string      `json:"point"`
	Axis        string      `json:"axis"`
	MM          float64     `json:"mm"`
	Sigma       float64     `json:"sigma_mm"`
	Prior       float64     `json:"prior_sigma_mm"`
	Statistic   float64     `json:"statistic"`
	Alone       *bandedJSON `json:"alone_mm"`
	Mismeasured bool        `json:"mismeasured"`
	Rival       bool        `json:"rival"`
}

type residualJSON struct {
	Place       string  `json:"place"`
	Side        string  `json:"side"`
	Travel      float64 `json:"travel_mm"`
	Read        float64 `json:"read_deg"`
	AsMeasured  float64 `json:"as_measured_deg"`
	Fitted      float64 `json:"fitted_deg"`
	Residual    float64 `json:"residual_deg"`
	Studentised float64 `json:"studentised"`
	Bad         bool    `json:"bad"`
	LeftOut     bool    `json:"left_out"`
}

type zeroJSON struct {
	Side string   `json:"side"`
	Deg  float64  `json:"deg"`
	Band *float64 `json:"band_95_deg"`
}

type fitJSON struct {
	Job         string           `json:"job"`
	Variant     string           `json:"variant"`
	Within      float64          `json:"measured_within_mm"`
	ReadsWithin float64          `json:"reads_within_deg"`
	Used        int              `json:"readings_used"`
	Corrections []correctionJSON `json:"corrections"`
	Residuals   []residualJSON   `json:"residuals"`
	Zeros       []zeroJSON       `json:"gauge_zeros"`
	Raise       *bandedJSON      `json:"spacer_change_mm"`
	Before      *diagnosisJSON   `json:"diagnosis_as_measured"`
	After       *diagnosisJSON   `json:"diagnosis_fitted"`
	Notes       []string         `json:"notes"`
	Caution     string           `json:"caution"`
}

type idealJSON struct {
	Centre   []float64   `json:"centre_mm"`
	LeftOver float64     `json:"path_leaves_sphere_mm"`
	Along    *bandedJSON `json:"along_mm"`
	Across   *bandedJSON `json:"across_mm"`
	ForeAft  bandedJSON  `json:"fore_aft_mm"`
}

type fanJSON struct {
	Name   string         `json:"name"`
	Curves []fanCurveJSON `json:"curves"`
}

type fanCurveJSON struct {
	Move float64   `json:"move_mm"`
	At   []float64 `json:"travel_mm"`
	Toe  []float64 `json:"toe_change_deg"`
}

type diagnoseJSON struct {
	Job       string         `json:"job"`
	Variant   string         `json:"variant"`
	Within    float64        `json:"measured_within_mm"`
	Width     float64        `json:"gauge_width_mm"`
	Diagnosis *diagnosisJSON `json:"diagnosis"`
	Ideal     idealJSON      `json:"ideal_rack_end"`
	Fans      []fanJSON      `json:"if_the_rack_moves"`
	Notes     []string       `json:"notes"`
	Caution   string         `json:"caution"`
}
