// Package store keeps the plan file: it reads it strictly, writes it whole or not at all, and locks it.
//
// Invariants: the types of package plan know nothing of the file; format.go describes it once, for reading, writing,
// messages and paths. What Read accepts, plan.Validate finds nothing Wrong in. What Encode writes, Decode reads back
// the same, and Encode writes again to the byte. No file makes it panic, or take more than some tens of megabytes.
//
// # Reading
//
// A file is refused with all of its Faults at once, each with its line, its path and what to do: an unknown key, a key
// or an id that stands twice, a wrong kind of value, a date that does not exist, a reference to nothing, a figure out
// of range. Of YAML it may use keys, lists and values, and nothing that stands for something else: no anchors, aliases,
// merge keys or tags, and one document only. It may have 1 MB, 100,000 lines and marks, and 500 items in a list. A file
// of a later format is refused with *NewerError.
//
// # Saving, and why it cannot lose the plan
//
//  1. The text is made, and read back, in memory. A plan that would not read back is refused with the file untouched.
//  2. What is on the disk is read and compared with what this window read or wrote last (Stamp). If another program
//     has changed it meanwhile, saving stops with ErrChanged, the file untouched; the user decides.
//  3. What was on the disk is written to a temporary file in the same folder, readable by its owner only from birth,
//     forced to the disk, and renamed to the backup's name, NAME~. Before the rename there is the older backup, after
//     it the old text stands under both names. A save that changes nothing makes no backup of it.
//  4. The new text is written to a temporary file in the same way and forced to the disk. That must come before the
//     rename: a system may keep the new name and lose the content behind it in a power cut.
//  5. The temporary file is renamed to the plan's name. Within one folder a rename happens or does not; whoever looks,
//     and whatever is killed, finds the old text or the new one, whole.
//  6. The folder is forced to the disk, so that the new name is there after a power cut. Windows has no such call.
//
// A step that fails before 5 leaves the old file, takes its temporary file away and says why. A kill leaves at most a
// hidden .NAME.123.part, which the next save takes away. A link is followed, and stays a link.
//
// Not covered: a program that takes no lock and writes the file in the milliseconds between 2 and 5 loses what it wrote;
// a disk that only claims to have written; hard links, which part from the file at the rename.
//
// Saving lays the file out anew. Comments written by hand are carried over to the same key or item where that can be
// done without doubt (keepComments); the file as it was is the backup, until the next save.
//
// # The lock
//
// Lock keeps two windows from one plan: an advisory lock of the system on the hidden file .NAME.lock, which ends with
// its process, however that ends. A lock file that lies about unlocked means nothing. Programs that do not ask are not
// kept out; step 2 is for them.
//
// Not done here: upgrading, for there is one format yet; keeping unsaved work, which is a later issue.
//
// # The format
//
// A plan is one YAML file in UTF-8. Its first key is eavelight, the number of the format. Keys are lower case with
// hyphens. What is not said is left out; nothing but the first key is required, but that everything others refer to
// has an id, and that a figure whose absence could only be a slip (a face's bearing) is there. Quotes around a value
// change nothing; a text with ": " or " #" in it needs them, and clocks are best written in them. Bearings are degrees
// clockwise from true north, altitudes degrees above the horizontal, heights and distances metres, times on the clock
// "18:30" ("25:30" is half past one the next morning), lengths of time whole minutes, or seconds on screen.
//
//	eavelight: 1
//	title: A day at Alder Bend
//
//	brief:
//	  client: Harrow & Finch Realty        # who orders and pays
//	  agent: Noor Castellan                # whose listing it is
//	  purpose: Show the house lived in, morning to night
//	  deliverables:
//	    - name: Hero film
//	      seconds: 90
//	      format: UHD 3840x2160, 24 fps
//	      scenes: [breakfast, toast]       # those it is cut from; left out means all
//	      kind: film                       # film, cut-down, stills, other
//	    - {name: Stills, stills: 18, exposures: 3}   # frames, and how many exposures each
//	  due: 2027-04-02
//	  budget: {amount: "18500.00", currency: USD}
//	  notes: |
//	    As many lines
//	    as it takes.
//
//	property:
//	  name: Alder Bend
//	  address: 14 Alder Bend Road
//	  position: {lat: 46.1, lon: -121.5}   # degrees, north and east positive
//	  elevation: 570
//	  zone: America/Los_Angeles
//	  declination: 13.5                    # how far east of true north the compass needle points
//	  air: {pressure: 950, temperature: 8} # hPa and Celsius, for the refraction; left out: standard air
//	  sea-horizon: true                    # the free horizon is the sea, seen from the elevation
//	  faces:                               # the sides of the house
//	    - id: south
//	      name: Garden side
//	      bearing: 184                     # required: where it looks
//	    - {id: west, bearing: 274}
//	  skyline:                             # required figures, both
//	    - {bearing: 240, altitude: 6}
//	    - {bearing: 300, altitude: 9.5}
//	  obstacles:                           # required figures: height, distance, from, to
//	    - {name: Spruce row, height: 14, distance: 40, from: 250, to: 275}
//	  spaces:
//	    - id: kitchen
//	      name: Kitchen
//	      kind: indoor                     # indoor, outdoor, aerial
//	      faces: [south]
//	      sill: 0.9                        # of the windows above the floor
//	      head: 2.3
//	      safety: Mind the step to the pantry.
//	    - id: terrace
//	      kind: outdoor
//	      faces: [south, west]
//	      wings:                           # where the house itself hides the sun from here, up to an altitude
//	        - {from: 60, to: 120, altitude: 40}
//	  moves:
//	    - {from: kitchen, to: terrace, minutes: 8}
//
//	scenes:
//	  - id: breakfast
//	    number: "1"
//	    title: Breakfast
//	    space: kitchen
//	    action: Pancakes. The dog waits.
//	    people: [ada, tom]
//	    looks:                             # what they wear; another look takes its time (people's change)
//	      - {person: ada, look: linen dress}
//	    kit:
//	      - 35 mm lens
//	      - gimbal
//	      - crane                          # there only at times: shooting.kit
//	    shots:                             # in the order they are taken; free words, any may be left out
//	      - {frame: wide, lens: 24 mm, movement: slider, note: the whole table}
//	      - {frame: detail, lens: macro, note: butter melts}
//	    audio: Wild sound of the pan; clip-on mic on Ada   # for whoever takes the sound
//	    light:                             # the wish; each takes only its own figures
//	      wish: sun patch
//	    lights: morning                    # shared in one space: right after another with the same, no set-up is needed
//	    setup: 30
//	    shoot: 25
//	    seconds: 12
//	    importance: must                   # must, should, nice
//	    notes: Steam shows against the window.
//	    pictures:                          # how it is to look, at most 24; the first stands for the scene
//	      - file: alder-bend-pictures/window.jpg   # a small copy, below the folder of the plan
//	        sha256: 9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08   # of the file; may be left out
//	        caption: So low a sun, and steam in it
//	  - id: toast
//	    number: "2"
//	    space: terrace
//	    people: [ada]
//	    light:
//	      wish: golden evening
//	      direct: true                     # golden wishes
//	    from: "17:00"
//	    to: "20:00"
//	    shoot: 20
//	    after: [breakfast]
//	    pin: {date: 2027-03-06, start: "17:40"}   # held: true where it only stayed while another scene was moved by hand
//	    cover: supper
//	  - id: supper
//	    space: kitchen
//	    light: {wish: face lit, face: west, incidence: 70}   # face in shade takes a face alone
//	    shoot: 20
//	  - id: silhouette
//	    space: terrace
//	    light: {wish: backlit, camera: 260, max-altitude: 20}   # side-lit and front-lit too; any wish may name a camera
//	    view: 40                           # degrees that the lens sees across
//	    lamp: {lux: 9000, rated: 1, loss: 1.5, subject: 2}   # lux at the rated metres, stops lost, metres to the subject
//	    shoot: 15
//	  - id: pool
//	    space: terrace
//	    light: {wish: high sun, min-altitude: 30}
//	    shoot: 15
//	  - id: lamps
//	    space: terrace
//	    light: {wish: dark, below: -8}
//	    shoot: 15
//	  - id: table
//	    space: kitchen
//	    values:                            # light by the clock in place of a wish: the share, 0 to 1; elsewhere 0
//	      - {from: "10:00", to: "11:30", share: 0.5}
//	      - {from: "11:30", to: "14:00", share: 1}
//	    shoot: 15
//
//	people:
//	  - id: ada
//	    name: Ada Brook
//	    pronouns: she/her
//	    role: talent                       # talent, crew, client, owner
//	    job: the mother
//	    phone: 555 0101
//	    email: ada@example.com
//	    sizes: dress 38, shoes 39
//	    diet: no nuts                      # for the catering; on no sheet that all get
//	    travel: 25                         # minutes from their door
//	    availability:
//	      - {date: 2027-03-06, from: "07:00", to: "21:00"}
//	    weight: 2                          # of a waiting minute; left out means 1
//	    change: 20                         # minutes that another look takes; left out means 15
//	  - id: tom
//	    name: Tom Brook
//	    born: 2019-06-30                   # under 18 on the day is a minor
//	    minor: true                        # a minor in any case
//	    guardian: ada
//	    guardian-there: present            # present, reachable
//	    longest: 480                       # minutes at the property in one day at most; left out means no limit
//	    work: 240                          # minutes in front of the camera, likewise
//	  - id: lee
//	    role: crew
//	    job: camera, drone
//	    paid: true
//	    rate: camera                       # on the rate card
//	    certificate:                       # of a drone's pilot
//	      number: "4000117"
//	      trained: 2026-05-12              # last tested or trained for it
//	      until: 2031-05-12                # its last day, where one stands on it
//
//	releases:
//	  - id: model-ada
//	    kind: model                        # model, minor, property, music, artwork, neighbour, pet, drone
//	    party: ada
//	    media: web and social
//	    territory: worldwide
//	    term: three years
//	    compensation: a copy of the film   # left out means none
//	    status: signed                     # needed, sent, signed, declined, lapsed
//	    signed-by: Ada Brook
//	    changed: 2027-02-20
//	    until: 2030-02-20
//	    scan:                              # a signed paper; the program says when it is gone or changed
//	      path: releases/ada.pdf           # from the folder of the plan
//	      sha256: 9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08
//	  - id: minor-tom
//	    kind: minor
//	    party: tom
//	    status: signed
//	    signed-by: Ada Brook
//	    relation: mother                   # who signed to the party
//	    signature:                         # made in the window
//	      name: Ada Brook
//	      at: "2027-02-20T17:45:10Z"       # to the second, UTC or with its offset
//	      place: Alder Bend
//	      consent: true                    # to sign electronically
//	      digest: 9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08   # SHA-256 of the text signed
//	      size: {width: 600, height: 200}  # of the pad; the strokes are points on it, from left and top
//	      strokes:
//	        - 40,120 52,80 61,122 70,121
//	        - 82,60 82,118
//	  - id: song
//	    kind: music
//	    subject: The piano piece
//	    scenes: [breakfast]
//
//	wordings:                              # of releases, in place of the built-in ones
//	  - kind: pet
//	    text: |
//	      {party} lets {producer} film {subject} in these scenes: {scenes}.
//	      Where it is shown: {media}, {territory}, {term}. What {party} gets for it: {compensation}.
//
//	hours:                                 # tables of minors' hours, in the form of the built-in ones
//	  - id: brindle                        # which shooting.minors names
//	    name: Brindle County, children on a set
//	    source: a letter of the school board, 12 January 2027   # required
//	    memory:                            # what nobody may rely on; verified and notes likewise
//	      - the rest between days
//	    rows:                              # ages rising, without a gap; the upper one belongs to the next row
//	      - {from: 6 months, to: 6 years, place: 4 h, work: 2 h, earliest: "08:00", latest: "20:00"}
//	      - {from: 6 years, to: 18 years, place: 8 h, work-school: 3 h, work-free: 5 h 30, at-once: 45 min, rest: 1 h, overnight: 12 h}
//
//	shooting:                              # a rule left out is the usual one; 0 is 0
//	  dates: [2027-03-06, 2027-03-07]
//	  date: 2027-03-06
//	  days: 2                              # to shoot on, 1 to 3
//	  earliest-call: "05:00"
//	  latest-wrap: "24:00"
//	  longest: 840
//	  prepare: 30
//	  ready: 20
//	  pack-up: 20
//	  meal-within: 360
//	  meal-length: 45
//	  meal-apart: 180                      # at least, and no more than meal-within
//	  rest: 660                            # from one day's wrap to the next day's call
//	  minors: california                   # the table of minors' hours that holds; school: true on a school day
//	  grid: 5
//	  weather:                             # what you expect, in hundredths; hours not named are clear
//	    - {date: 2027-03-06, from: "06:00", to: "11:00", cloud: 70, rain: 20}
//	  kit:                                 # there only at these times, for the scenes that name it
//	    - name: Crane
//	      availability:
//	        - {date: 2027-03-06, from: "09:00", to: "17:00"}
//	  flying:                              # of drones
//	    rules: us-part-107                 # us-part-107, us-part-107-alaska; left out means the local authority's, not known here
//	    read: 2027-02-20                   # when the authority's rules were read and acknowledged
//	    read-by: lee
//	    light: true                        # the drone's anti-collision light is seen for 3 statute miles
//	  weights: {light: 1, waiting: 0.2, minor: 3, moving: 0.1, length: 2, left-out: 100, again: 60, day: 150}
//	  overtime:                            # required figures, both: points for each hour beyond, on top of the step before
//	    - {after: 600, points: 5}
//	    - {after: 720, points: 10}
//	  light: {golden-low: -4, golden-high: 6, blue-low: -6, blue-high: -4}
//
//	pricing:
//	  card:                                # a copy of the rate card, whose file has these keys after eavelight-rates: 1
//	    name: My rates
//	    currency: USD                      # ISO 4217; starter: true says that the figures are invented
//	    time-step: 15                      # paid time is rounded up to so many minutes
//	    overtime:
//	      - id: california
//	        name: California
//	        source: California Labor Code 510(a)
//	        daily:                         # required figures, both: after so many minutes an hour is paid so many times
//	          - {after: 480, times: "1.5"}
//	          - {after: 720, times: "2"}
//	        seventh:                       # on the seventh day worked in a week
//	          - {after: 0, times: "1.5"}
//	        weekly: 2400                   # straight minutes in a week, then weekly-times
//	        weekly-times: "1.5"
//	      - id: day
//	        daily:
//	          - {after: 0, times: "1.5"}
//	        beyond: true                   # the steps begin after the hours that a day's rate is for
//	    crew:
//	      - {id: camera, name: Camera, basis: day, rate: "620.00", hours: 600, overtime: day}   # hour, day, half day, owner
//	      - {id: editor, name: Editor, basis: hour, rate: "55.00", travel: true}
//	      - {id: owner, name: Owner, basis: owner}
//	    kit:
//	      - {name: Camera body, always: true, owned: true, cost: "9800.00", salvage: "2600.00", years: 4, days: 60}
//	      - {name: crane, day: "240.00", week: "900.00"}   # hired
//	    rates:                             # an amount, or a time of somebody, for each of what it is per
//	      - {id: meals, name: Meals, group: catering, per: meal, amount: "16.00"}
//	      - id: editing
//	        name: Editing
//	        group: post-production
//	        per: finished minute
//	        for: film                      # of the deliverables of this kind
//	        time: 540
//	        who: editor
//	        low: 75                        # at best and at worst, in hundredths
//	        high: 170
//	      - {id: music, group: licences, amount: "220.00", untaxed: true, pays: client, note: They choose it.}
//	    business:
//	      overheads:
//	        - {name: Insurance, yearly: "2400.00"}
//	      days: 110                        # billable, in a year
//	      hours: 480                       # minutes of one of them
//	      pay: "62000.00"
//	    terms:                             # shares in percent
//	      contingency: "8"
//	      margin: "20"                     # of the price
//	      discount: "5"
//	      step: "50"                       # the price is rounded up to it
//	      taxes:
//	        - {name: Sales tax, percent: "8.25"}
//	      tax-by-line: true                # rounded line by line
//	      payments:
//	        - {name: On booking, percent: "40", when: booking}   # booking, shoot, delivery
//	        - {name: Rest, percent: "60", when: delivery, days: 14}
//	      valid: 30                        # days from quoted
//	      wording: Our terms stand on our page.   # under a quote, in place of the template
//	  distance: 38                         # kilometres, one way
//	  lines:                               # typed by hand
//	    - {id: flowers, group: location, text: Flowers, quantity: "3", unit: vase, rate: "24.00"}
//	    - {id: permit, text: Street permit, quantity: "1", rate: "75", untaxed: true, pays: agent, note: By the town.}
//	  overrides:                           # in place of what was computed
//	    - {line: rate/meals, quantity: "12", rate: "18.50", note: The good caterer.}
//	    - {line: kit/crane, out: true, pays: client}
//	  unsure: {early: 15, late: 90, rounds: 2, most-rounds: 4, weather: 15}
//	  recording:
//	    ratio: 12                          # seconds recorded for one on screen
//	    bitrate: 200                       # Mbit/s
//	    megapixels: 45                     # of a still, with so many bits a pixel; packed: the raw files are compressed
//	    bits: 14
//	    packed: true
//	    card: 128                          # GB
//	    drive: 2000                        # GB
//	    offload: 250                       # MB a second
//	    copies: 3                          # of which so many are on drives, and so many at another place
//	    on-drives: 2
//	    elsewhere: 1
//	    batteries:
//	      - {name: Camera battery, lasts: 110, spare: 30}
//	      - {name: Drone battery, lasts: 24, spare: 50, flying: true}
//	  what-if:
//	    talent: editor                     # the rates of paid talent and of a second camera
//	    camera: camera
//	    saves: 20                          # percent of the shooting minutes that a second camera saves
//	    more: {name: Teaser, seconds: 15, kind: cut-down}
//	  asked: "9400"                        # the price asked for, in place of the computed one
//	  try: "9000"                          # a price to look at
//	  quoted: 2027-01-25                   # the day on the quote
//	  booked: 2027-02-01
//	  packages:
//	    - {name: Morning only, scenes: [breakfast], deliverables: [Stills]}
//	  market:
//	    - {who: A studio in the valley, amount: "7800", includes: One film of two minutes, noted: 2027-01-20}
//
//	papers:
//	  size: letter                         # letter, a4
//	  dates: en-US                         # the language of dates: en, en-US, es, fr, de, it, nl, pt, pl, sv, da, nb, el, cs
//	  clock: 12h                           # 24h, 12h
//	  producer: Lee Quennery               # who makes the film, as it stands in the releases
//	  access: Gate code from the agent.
//	  parking: Along the lower drive.
//	  hospital: Valley Clinic, 2 Mill Street, 555 0199
//	  safety:
//	    - Candles only with a bucket beside them.
//	  calendar:                            # what was written into calendars last, so that the next ones move their events
//	    key: 9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08   # the events' names are made from it
//	    events:                            # digest: SHA-256 of what the event said; sequence: how often that has changed
//	      - {day: 1, sequence: 0, digest: 9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08, from: "2027-03-06T13:25:00Z", to: "2027-03-07T03:50:00Z"}
//	      - {person: ada, day: 1, sequence: 2, digest: 9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08, from: "2027-03-06T15:20:00Z", to: "2027-03-07T01:35:00Z"}
//	  sheets:                              # what the call sheets said that were sent last, so that the next ones mark what has changed
//	    - day: 1
//	      revision: 2
//	      date: 2027-03-06
//	      before: 2027-03-05               # the date of the revision before
//	      items:                           # digest: SHA-256 of what the part said; change: new, changed, gone; was-from, was-to: its times before
//	        - {key: person ada, name: Ada Brook, digest: 9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08, from: "2027-03-06T15:20:00Z", to: "2027-03-07T01:35:00Z", change: changed, was-from: "2027-03-05T15:05:00Z", was-to: "2027-03-06T01:35:00Z"}
//	        - {key: scene swim, name: Scene 5 Swim, digest: 9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08, change: gone}
//
//	log:
//	  - {scene: breakfast, date: 2027-03-06, start: "08:10", end: "08:41", note: Two takes.}
package store
