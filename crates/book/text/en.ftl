# Every word of the book in English. Words of the drawings stand in the room `drawings`, titles and remedies of rules in the
# rules themselves. A test fails on a message that no sheet uses, and on one that a language lacks.

book = Job book
book-title = { $job }: job book
foot-job = Job
foot-covering = Covering
foot-date = Date
foot-sheet = Page
foot-of = of
foot-scale = Scale
invented-short = , invented figures
none = none
from-to = { $from } to { $to }
at-least = { $count }, at least { $least }
area-squares = { $area } ({ $squares } squares)

cover = The job in numbers
part-whole = The whole book
part-crew = For the crew
part-office = For the office
part-official = For the building official
part-owner = For the owner
part-poles = Story poles in full size
cover-contents = What is in it
cover-not-all = NOT ALL OF THE JOB IS PLANNED. What could not be planned is missing from every sheet; it is named below.
cover-problems = Mend or know before you build
cover-who-decides = Who decides
cover-defers = This book decides nothing that the local code, the maker's sheet, the licensed designer or the building official decides. Where they say otherwise, they are right. A check that passes here permits nothing.
cover-invented = The figures of this covering are invented and stand for no product: type in those of the maker's sheet before you order or lay.
cover-sheet = Figures of the covering are those of the sheet that the job names. Hold them against the maker's newest sheet before you order.
fact-covering = Covering
fact-unit = Unit, width × length
fact-area = Area on the slope
fact-plan-area = Area seen from above
fact-planes = Planes
fact-pitches = Pitches
fact-height = Height of the roof
fact-pieces = Field pieces laid
fact-cut = Cut pieces among them
fact-stock = Field units to cut them from
fact-weight = Weight delivered
fact-hold-points = Hold points
fact-checks = Checks
checks-in-numbers = { $fail } failed, { $attention } to look at, { $pass } passed

cautions = Before anybody climbs
cautions-defer = This is no safety plan. Local law, your own safety plan and a competent person on the site decide.
cautions-slippery = Wet, frosted or dusty units are slippery at any pitch: no work on frost, in rain, or before they are dry.
cautions-look = Power lines, ladders (1 out for 4 up, 3 ft above the edge), stacked units and the ground below: look before you set up.
cautions-walk = What not to walk on
walk-courses = Finished courses: work from ladders, brackets and planks.
walk-underlayment = Underlayment that is wet, frosted or dusty, or not yet fastened.
walk-metals = Valleys and flashings: a dent holds water.
walk-openings = Openings and skylights: cover them, mark the cover, fasten it.

roof-plan = Roof plan
roof-plan-alt = The roof seen from above at { $scale }: { $planes ->
    [one] one plane
   *[other] { $planes } planes
 } with pitch and fall, their lines by kind, and where laying starts.
roof-plan-note = Lengths, marks and cuts stand on the sheet of each plane. Left and right are seen facing the plane from the ground.
roof-plan-apart = Planes measured by tape stand side by side: their place in plan is not known.
roof-plan-wind = Zones of the wind along eaves and rakes; whether ridges and hips count too, a licensed engineer tells.

order-of-work = Order of work
order-of-work-note = At a HOLD POINT nothing goes on until it has been seen and signed.
step-photo = Photo: { $photo }.
step-hold = HOLD POINT, seen by { $who }
step-who = Looks at it: { $who }.
sign-name = Name
sign-signature = Signature
sign-date = Date

dry-in = Dry-in and vents
dry-in-note = In the order in which it is laid. Laps are the least.
dry-in-kind = What
dry-in-name = Of what
dry-in-size = Size
dry-in-side-lap = Side lap
dry-in-end-lap = End lap
dry-in-strips = Strips
dry-in-count = Rolls or pieces
dry-in-barrier = Ice barrier along the eaves
dry-in-eave = { $plane }: needed up to { $needed } up the slope from the roof edge; whole courses reach { $laid }.
dry-in-layers = From the deck up: { $planes }
dry-in-in-part = in part
dry-in-missing = Not placed
vents = Vents, net free area
vents-floor = Attic floor
vents-share = Share of the floor
vents-needed = Needed in all
vents-upper = In the upper part
vents-lower = At the eaves
vents-ridge = The ridges give
vents-slot = Slot at the ridge, in all
vents-soffit = Soffit vent needed
vents-eaves = Eaves there are

plane = Setting out
plane-alt = { $plane } drawn at { $scale } with { $courses ->
    [one] one course
   *[other] { $courses } courses
 }, the marks of the story pole for butts at the left and heads at the right, and the length of every edge.
fact-pitch = Pitch
fact-courses = Courses
fact-exposure = Exposure
fact-headlap = Headlap, least
fact-plane-pieces = Pieces
pieces-of-which = { $pieces }, { $cut } of them cut
fact-gap = Gap
fact-nails = Nails each
plane-before = Signed before the first unit
plane-signed = Step { $number }: { $step }
plane-start = Where to start
plane-joints-1 = Start at the left. First joint from the left end of every course: { $a }.
plane-joints-2 = Start at the left. First joint from the left end: odd courses { $a }, even courses { $b }.
plane-joints-3 = Start at the left. First joint from the left end: courses 1, 4, 7 … { $a }; courses 2, 5, 8 … { $b }; courses 3, 6, 9 … { $c }.
plane-joints-table = Start at the left. First joint from the left end: course 1 { $a }, course 2 { $b }, the others by the table.
plane-zero-at = Zero of the pole: first butts, at the low edge. Top line (long-dashed dotted): { $top }.
plane-zero-past = Zero of the pole: first butts, { $off } past the low edge. Top line (long-dashed dotted): { $top }.
plane-zero-above = Zero of the pole: first butts, { $off } above the low edge. Top line (long-dashed dotted): { $top }.
plane-starters = Starters along the eave: { $count }, { $height } high, butts flush with the first course.
plane-starters-above = Starters at { $up } on the pole: { $count }, { $height } high.
plane-poles = Mark butts and heads on both poles, each from zero, never one from the last. Chalk the heads.
plane-mind = Mind
plane-off-marks = DO NOT LAY BY THE MARKS ON THE UNIT: course { $course } shows { $shows }, and the nearest mark is { $mark }.
plane-out-of-square = Out of square: { $left } at the left, { $right } at the right; each pole has its own marks. Lines run { $apart } apart in 10 ft.
plane-staggered = Staggered: every other unit hangs { $step } below the line, as drawn. Starters and first course lie straight.
plane-length = Courses { $from } to { $to }: units { $length } long, { $thickness } thick.
plane-length-drop = Courses { $from } to { $to }: units { $length } long, { $thickness } thick. Course { $from } drops: its heads lie { $apart } over those below, once.
plane-cant = Under the starters a cant strip { $cant } thick, so that the first course lies like the rest.
plane-starter-layers = Starters lie in { $layers } layers, joints off each other.
plane-station-met = { $name } at { $mark }: a line lands there.
plane-station-not = { $name } at { $mark }: { $shows } of a course show there.
plane-caps = Caps: snap a straight line { $off } down from hip or ridge at both its ends.
plane-opening = Opening { $number }, { $name }: { $width } wide, { $height } up the slope; its middle { $across } from the left end and { $up } up.
plane-short-edges = Short edges. { $edges }
plane-nail = Nail and cut
plane-nails = { $nails ->
    [one] One nail
   *[other] { $nails } nails
 } in each unit, at the places of the maker's sheet.
plane-nails-driven = Drive until the head touches the unit: not proud, and not so deep that it dents or holds the unit fast.
plane-gap = Leave { $gap } between neighbours, by gauge. On a cold or hot day the maker's sheet may ask for more or less.
plane-cut-made = Cut pieces keep the unit's own butt, and its own sides where they meet a neighbour.
plane-tools = Tools, blade and chalk: by the maker's sheet. Try the chalk on a spare unit first: some never comes off.
poles = Story pole
poles-alt = { $pole } in full size, page { $number } of { $pages }: butts and heads of every course with their running marks.
poles-note = Cut out the strips, lay cross on cross and tape them. Then hold the whole pole against the mark of its last course: if it does not agree, do not use it.
poles-both = { $plane }, left and right alike
poles-left = { $plane }, left
poles-right = { $plane }, right
poles-middle = { $plane }, in the middle
courses = Courses: running marks
courses-number = No.
courses-butts = Butts
courses-butts-right = Butts, right
courses-low = Low butts
courses-heads = Heads
courses-joint = First joint
courses-left-cut = Cut, left
courses-right-cut = Cut, right
plane-cuts = Cuts of this plane

details = Details
details-note = Lengths along the slope are to scale, thicknesses are not. Where the maker's sheet asks for something else, the sheet is right.
details-alt = { $title }: a cut through the detail with its lengths.
detail-eave = Eave, { $of }
detail-rake = Rake, { $of }
detail-ridge = Ridge, { $of }
detail-valley = Open valley, { $of }
detail-cricket = Chimney and cricket, { $of }

cut-list = Cut list for the saw
cut-list-summary = { $kinds ->
    [one] One kind
   *[other] { $kinds } kinds
 } of { $pieces } pieces to cut. Unit { $unit }: take { $stock } in all; no way of cutting takes fewer than { $bound }. Bevel: between cut and course line. Leans: as the cut rises, seen as the piece lies on the roof.
cut-piece = Piece
cut-bin = Bin
cut-bevel = Bevel
cut-leans = Leans
cut-butt = Butt
cut-head = Head
cut-length = Length
cut-count = Pieces
cut-where = Plane, cut, courses
cut-place = { $plane }, cut { $cut }, { $courses }
cut-cut = Cut
cut-courses = Courses
cut-hand = Hand
cut-at = At
offcuts = Offcuts that are used
offcuts-note = Units that give more than one piece, left to right. Every other piece takes a unit of its own.
offcuts-units = Units
offcuts-pieces = Each gives pieces
offcuts-turned = head for tail

order = Order
order-note = Counted from the layout; spare packs for what breaks are in it. Hold packs and figures against the maker's sheet.
order-ordered = Ordered
order-item = What
order-packs = Packs
order-pack = Pack
order-need = Needed
order-spare = Spare among them
order-spares = What breaks
order-short = { $item }: { $breakage } % break ({ $told }). With { $packs ->
    [one] one spare pack
   *[other] { $packs } spare packs
 } the chance of running short is { $chance } %; taken as enough is { $taken } %.
order-breakage-job = by the job
order-breakage-sheet = by the sheet
order-breakage-invented = an invented figure: write your own
order-days = Deliveries
order-day = Day
order-for = For
order-brings = Packs
order-weight = Weight
order-total = Weight of what has one on its sheet: { $weight }.
order-places = Where it goes
order-where = Where

stage = Staging
stage-alt = The roof seen from above at { $scale } with { $piles ->
    [one] one pile
   *[other] { $piles } piles
 } of units, numbered in the order in which they are set down.
stage-note = In each box: the number of the pile, in the order in which piles are set down, and its units; 2×40 is 40 now and as many again when they are laid.
stage-pile = Pile
stage-plane = Plane
stage-courses = Courses
stage-units = Units
stage-at-once = At once
stage-times = Times
stage-weight = Weight
stage-patch = psf of plan
stage-list = Piles
stage-pallets = { $count ->
    [one] One pallet
   *[other] { $count } pallets
 } of field units, a full one of { $packs } packs and { $full }.

photos = Photos
photos-note = Each photo shows the place as a whole and the tape close by. Name the file after job, step and plane.
photos-step = Step
photos-when = When
photos-shows = What it must show
photos-taken = Taken
photos-file = File

checks-code = Checks: code
checks-code-note = What a building code asks for. The edition in force at the place and the building official decide.
checks-maker = Checks: the maker's sheet
checks-maker-note = What the sheet of the covering asks for. The maker's newest sheet decides.
checks-practice = Checks: practice of the trade
checks-practice-note = What the trade, agencies and books ask for; no official has to hold you to it.
checks-outcome = Outcome
checks-rule = Rule
checks-figures = Figures
checks-source = Source
checks-unread = (The source was not read.)
checks-remedy = →
checks-silenced = Accepted: { $reason }
checks-not-applicable = Checks that do not apply
checks-not-applicable-note = Nothing was found out here, good or bad. Where the job lacks a value, give it, and the rule is checked.
checks-why-not = Why not
outcome-fail = FAILS
outcome-attention = LOOK
outcome-pass = passes

warranty = What would void the warranty
warranty-note = What a maker commonly holds against a roof. The maker's own terms decide; keep the sheet with this page.
warranty-voids = What voids it
warranty-keeps = What keeps it

sign-off = Sign-off
sign-off-note = Who signs has seen it with his own eyes. A signature here replaces no permit and no inspection.
sign-off-holds = Hold points
sign-off-people = The finished roof
sign-off-hold = { $step } ({ $who })
sign-crew-lead = Crew lead
sign-contractor = Contractor
sign-official = Building official, where the place inspects it
sign-owner = Owner

# What the plan says. The words are the plan's own; a phrase that nothing says any more fails a test.

phrase-north = north
phrase-northeast = northeast
phrase-east = east
phrase-southeast = southeast
phrase-south = south
phrase-southwest = southwest
phrase-west = west
phrase-northwest = northwest
phrase-left = left
phrase-right = right
phrase-both = both
phrase-head = head
phrase-parts = parts
phrase-upper = upper
phrase-upper-more = upper { $number }
phrase-course-narrow = { $plane }: the first course over a higher { $edge } shows { $shows } only, less than half the least exposure, { $least }
phrase-course-narrow-remedy = let its first butts stand out more or less, so that a line lands there
phrase-out-of-square = { $plane } is out of square: its top stands { $left } above the eave at the left and { $right } at the right
phrase-out-of-square-remedy = courses are laid parallel to the eave and run out at the top; shift them by hand if that would show
phrase-framing = framing
phrase-blocking = blocking
phrase-clips = clips
phrase-cricket-side = cricket { $side }

phrase-eave = eave
phrase-rake = rake
phrase-ridge = ridge
phrase-hip = hip
phrase-valley = valley
phrase-sill = sill
phrase-headwall = headwall
phrase-sidewall = sidewall
phrase-break = break
phrase-high-edge = high edge
phrase-dead-valley = dead valley
phrase-top-of-valleys = top of valleys

phrase-crew-lead = crew lead
phrase-sheet-metal-hand = sheet-metal hand
phrase-official = crew lead, and the building official where the place inspects it
phrase-tear-off = Old layers off
phrase-tear-off-see = { $layers } old layers are off, nails and all; no more is opened than can be dried in the same day.
phrase-tear-off-photo = each plane before and after
phrase-deck = The deck
phrase-deck-is-thick = The deck is { $kind }, { $thick } thick.
phrase-deck-is = The deck is { $kind }; measure its thickness.
phrase-deck-not-told = Kind and thickness of the deck: not told, measure them.
phrase-deck-joints = Joints between its sheets are held by { $by }.
phrase-deck-joints-not-told = Joints between its sheets lie on framing, blocking or clips: not told.
phrase-found-so = It is { $what }: found so.
phrase-found-not-so = It is { $what }: FOUND NOT SO. Mend it before anything is laid.
phrase-to-be-seen = It is { $what }: to be seen.
phrase-flat = flat: no step and no hollow shows under a straightedge
phrase-sound = sound: nothing gives underfoot, nothing is rotten
phrase-dry = dry
phrase-draining = draining: water stands nowhere
phrase-old-layers-not-told = Old layers are off: not told.
phrase-deck-photo = each plane bare; every replaced sheet with a tape on it
phrase-dry-in = Dry-in
phrase-drip-edge-eaves = Drip edge of the eaves lies on the deck, under the sheets; pieces lap.
phrase-barrier-stuck = Ice barrier is stuck down without wrinkles, laps { $side } at sides and { $end } at ends.
phrase-underlayment-flat = Underlayment ({ $name }) lies flat, each course over the one below: { $side } at top laps, { $end } at end laps; carried over hips, ridges and valleys.
phrase-drip-edge-rakes = Drip edge of the rakes lies over the underlayment.
phrase-drip-edge-eaves-over = Drip edge of the eaves lies over the underlayment; pieces lap.
phrase-drip-edge-rakes-under = Drip edge of the rakes lies on the deck, under the sheets.
phrase-dry-in-photo = barrier's upper end with a tape from the roof edge; one side lap and one end lap with a tape; the edge metal
phrase-metals = Metals and all that comes through the roof
phrase-valleys-lined = Valleys are lined, laps away from the water.
phrase-valley-metal-trimmed = Valley metal is trimmed so that it narrows upwards with the valley, clear of every nail.
phrase-wall-flashings = Flashings at walls are cut and at hand, one for each course along a sidewall.
phrase-cricket-in-place = { $name }: cricket and back pan are in place.
phrase-apron-at-hand = { $name }: apron and back pan are at hand.
phrase-curb-in-place = { $name }: its curb or frame and its flashing are in place.
phrase-pipe-stays = { $name }: it comes through the deck where it stays, flange at hand.
phrase-metals-photo = each valley, wall and opening before it is covered
phrase-first-courses = First three courses
phrase-first-straight = Starter and first course are straight; their joints are { $offset } apart at least.
phrase-first-joints = Joints of the first three courses are { $offset } apart at least from course to course.
phrase-first-nails = { $nails } nails in each unit, flush, where the sheet wants them.
phrase-first-photo = the first three courses with a tape on exposure and headlap
phrase-field = Courses up to the ridge
phrase-field-see = Courses keep to the marks at both ends.
phrase-field-photo = each plane when half of it is laid
phrase-ridges = Ridges and hips
phrase-slot = The slot is cut { $slot } and stays closed at its ends; the vent runs in one direction.
phrase-slot-in-all = { $slot } in all
phrase-slot-as-asked = as the vent asks
phrase-caps-straight = Caps are straight, lap alike and are nailed at both sides.
phrase-ridges-photo = the ridge open, and capped


phrase-stage-too-large = Too large for one map: no piles are told. Stage it in parts, or give [stage] a greater reach and apart.
phrase-stage-not-told = How much the framing carries is NOT TOLD ([deck] live_load_psf): piles of up to { $most } psf are compared with nothing.
phrase-stage-within = Piles stay within { $live } psf over their patches, { $most } psf at most; people, tools and snow come on top and are not in it.
phrase-stage-none = Where 0 units are told not even one may be set down: hand them up.
phrase-stage-engineer = A licensed engineer decides what the framing carries, old wood and trusses above all; trusses are braced first.
phrase-stage-boards = Boards across the rafters spread each pile over its patch; nothing stands free on a steep slope: roof brackets or hooks hold it.
phrase-stage-pallet = Never a pallet on the roof, never a pallet on a pallet (common practice, no published source). Nobody stands under a lift.
phrase-falls = { $plane } is { $pitch }: { $held } from { $height } ft above a lower level { $up }
phrase-held-steep = a steep roof, guard rails with toe boards, nets or personal fall arrest
phrase-held-low = guard rails, nets or personal fall arrest
phrase-dust-one = 1 piece of slate or tile is cut: silica dust if it is sawn dry.
phrase-dust = { $cuts } pieces of slate or tile are cut: silica dust if they are sawn dry.
phrase-frost = The air is at { $air }: nobody sets foot on frost.
phrase-heat = The air is at { $air }: water, shade, rest, and nobody alone.
phrase-ladder = The highest eave is { $highest } over the job's datum: a ladder of { $ladder }, clear of every power line.
phrase-old-built = An old covering comes off, and the job does not give [site] built.
phrase-old-year = An old covering comes off a house of { $year }: test it for asbestos and lead first.

phrase-deck-layer = deck
phrase-drip-edge = drip edge
phrase-ice-barrier = ice barrier
phrase-underlayment = underlayment
phrase-interlayment = interlayment
phrase-units = units
phrase-plywood = plywood
phrase-osb = oriented strand board
phrase-boards = boards laid close
phrase-spaced-boards = spaced boards
phrase-self-adhered = self-adhered ice barrier
phrase-woven = woven underlayment
phrase-felt-30 = 30-lb felt
phrase-felt-15 = 15-lb felt
phrase-fire = { $class } ({ $test }) was reached on { $layers }, and holds for no other list.
phrase-barrier-asked = Asked for by the job.
phrase-barrier-none = None by the job.
phrase-barrier-cold = The mean winter temperature, { $is }, is below { $bound }.
phrase-barrier-not-cold = None: the mean winter temperature, { $is }, is not below { $bound }.
phrase-barrier-unknown = Not known whether the place asks for one.
phrase-missing-place = it is not known whether the place asks for an ice barrier, so none is laid along the eaves
phrase-missing-place-remedy = write winter, its mean temperature, or ice_barrier = true or false under [site]
phrase-missing-overhang-of = ice barrier, { $plane }
phrase-missing-overhang = the overhang of an eave of { $plane } is not known, so no barrier is laid along it
phrase-missing-overhang-remedy = write overhang on that edge, or overhang under [dry_in] for all eaves that have none
phrase-vents-word = vents
phrase-vents-overhang = the attic's floor is not known, as some overhang is not given
phrase-vents-overhang-remedy = write the overhangs, or area_sqft under [attic]
phrase-vents-both = vents are balanced and a vapour retarder is there
phrase-vents-balanced = vents are balanced
phrase-vents-retarder = a vapour retarder is there
phrase-vents-warm = vents are balanced, and the climate zone asks for no vapour retarder
phrase-vents-no-retarder = no vapour retarder is told of, nor a climate zone from 1 to 5
phrase-vents-not-balanced = the vents are not told to be balanced
phrase-vents-lets-out = The whole ridge lets out { $area }, so the soffits must let in as much.

phrase-composite = Composite slate, generic
phrase-natural = Natural slate 22 x 11, generic
phrase-tile = Plain clay tile, generic
phrase-shake = Sawn shake 24 in, generic
phrase-shingle = Wood shingle 18 in, generic
phrase-cap = { $covering }, hip and ridge cap
phrase-starter = { $covering }, starter
phrase-wide = { $covering }, wide unit
phrase-nails-for = nails for { $covering }
phrase-fasteners-for = fasteners with caps for { $name }
phrase-ridge-vent = ridge vent
phrase-bundle = bundle of { $count }
phrase-box = box of { $count }
phrase-roll = roll of { $width } × { $length }
phrase-size = { $width } × { $length }
phrase-piece = piece of { $length }
phrase-section = section of { $length }
phrase-pieces = pieces
phrase-nails = nails
phrase-ft = ft
phrase-fasteners = fasteners
phrase-sections = sections
phrase-offcuts = made of offcuts
phrase-blanks = { $kind }, blanks { $girth } × { $length }
phrase-bent = piece bent from the sheets
phrase-thick-sheet = { $metal }, { $thickness } in thick
phrase-sheet = sheet of { $width } × { $length }
phrase-sq-ft = sq ft
phrase-flange = pipe flange for { $diameter } pipe at { $pitch }
phrase-one-piece = piece
phrase-copper = copper
phrase-galvanized-steel = galvanized steel
phrase-stainless-steel = stainless steel
phrase-aluminum = aluminum
phrase-zinc = zinc
phrase-open-valley-metal = open valley metal
phrase-closed-valley-metal = closed valley metal
phrase-cleat = cleat
phrase-step-flashing = step flashing
phrase-kick-out = kick-out
phrase-mitred-hip-metal = mitred hip metal
phrase-dead-valley-pan = dead valley pan
phrase-back-pan = back pan
phrase-cricket-metal = cricket metal
phrase-apron = apron
phrase-apron-corner = apron corner
phrase-counterflashing = counterflashing
phrase-high-edge-metal = high edge metal
phrase-break-metal = break metal
phrase-nails-for-caps = nails for { $covering } caps
phrase-nails-for-caps-long = nails for { $covering } caps, { $length }
phrase-nails-for-caps-vent = nails for { $covering } caps over the ridge vent{ $length }
phrase-nails-for-long = nails for { $covering }, { $length }
