# What people read, in English. The same messages, with the same placeables, stand in every file here.
# A message is named after the screen or part it belongs to; words of closed sets after their set (see word() in language.ts).

## Words of closed sets

party-maker = the maker
party-qc = QC
party-ai = the Authorized Inspector
party-customer = the customer
party-engineering = engineering

role-welder = welder
role-fitter = fitter
role-tube-roller = tube roller
role-foreman = foreman
role-inspector = inspector
role-supervisor = supervisor
role-authorized-inspector = authorized inspector
role-customer = customer
role-engineer = engineer
role-planner = planner
role-layout = layout
role-tester = tester

state-open = open
state-started = begun
state-flagged = not as it should be
state-met = done
state-complete = complete
state-released = released
state-not-asked = not asked

verdict-in-tolerance = in tolerance
verdict-out-of-tolerance = out of tolerance
verdict-too-close-to-call = too close to call
verdict-recorded = recorded
verdict-unjudged = unjudged
verdict-accepted = accepted
verdict-rejected = rejected
verdict-does-not-apply = does not apply
verdict-complete = recorded
verdict-incomplete = not complete

standing-in-force = in force
standing-void = void
standing-replaced = replaced
standing-plan-changed = plan changed
standing-asked-again = asked again

signing-valid = valid
signing-void = void
signing-role-not-held = role not held
signing-role-to-be-confirmed = role to be confirmed
signing-plan-changed = plan changed
signing-asked-again = asked again
signing-waiting-for-records = waiting for records
signing-out-of-order = out of order
signing-own-work = own work
signing-no-photo-of-the-page = no photo of the page
signing-no-notice-was-given = no notice was given
signing-must-be-present = must be present
signing-step-was-not-met = step was not met
signing-shaken = shaken

why-slip = slip of the finger
why-measured-again = measured again
why-after-rework = after rework
why-after-repair = after repair

result-accept = accept
result-reject = reject
result-does-not-apply = does not apply

layer-root = root
layer-hot = hot
layer-fill = fill
layer-cap = cap
layer-back = back

disposition-use-as-is = use as is
disposition-rework = rework
disposition-repair = repair
disposition-scrap = scrap

seen-use-as-is = seen, stands as it is
seen-rework = do it again
seen-repair = do it again

decision-to-do = to do
decision-waits-for-agreement = waits for agreement
decision-done = done
decision-no-effect = has no effect
decision-void = lined out

binds-code = code
binds-drawing = drawing
binds-shop = shop

type-reading = reading
type-visual = visual check
type-weld = weld pass
type-report = report
type-text = text
type-photo = photo
type-note = note
type-call = call
type-sign-off = sign-off
type-point = point
type-disposition = disposition
type-agreement = agreement
type-void = lining out
type-tagging = tag

flag-open = open
flag-decided = decided
flag-fixed-on-the-spot = fixed on the spot
flag-closed = closed

kind-out-of-tolerance = out of tolerance
kind-too-close-to-call = too close to call
kind-rejected = rejected
kind-unjudged = unjudged
kind-went-past-an-open-hold = went past an open hold
kind-witness-without-notice = witness without notice
kind-entry-after-release = entry after release
kind-sign-off-shaken = sign-off shaken
kind-role-in-doubt = role in doubt
kind-signed-in-ink = signed in ink
kind-readings-disagree = readings disagree
kind-photo-missing = photo missing
kind-gauge-ran-out = gauge ran out
kind-gauge-too-coarse = gauge too coarse
kind-phone-and-server-differ = phone and server differ
kind-not-in-the-plan = not in the plan
kind-chain-gap = chain gap
kind-chain-fork = chain fork
kind-phone-shut-out = phone shut out
kind-maker-not-qualified = maker not qualified
kind-run-rule-broken = readings drift
kind-clock-far-off = clock of the phone far off

tag-put-on = put on
tag-taken-off = taken off
tag-back-on = back on
tag-gone-inside = gone inside
tag-replaced = replaced

party-short-maker = maker
party-short-qc = QC
party-short-ai = AI
party-short-customer = customer
party-short-engineering = engineering

point-sign = sign
point-h = hold
point-w = witness
point-r = review
point-s = surveillance

answer-coming = coming
answer-waived = waived

way-telephone = telephone
way-message = message
way-in-person = in person

quantity-the-first-leg = the first leg
quantity-the-second-leg = the second leg
quantity-the-volts = the volts
quantity-the-amps = the amps
quantity-the-travel = the travel
quantity-the-efficiency = the efficiency
quantity-the-inside-diameter-before-rolling = the inside diameter before rolling
quantity-the-thickness-of-the-coupon = the thickness of the coupon
quantity-the-wall-reduction = the wall reduction
quantity-share = the share of { $element }

field-welder = welder
field-stamp = stamp
field-procedure = procedure
field-lot = lot

report-state-asked-for = asked for, not back yet
report-state-in = in

## Every screen: the bar on top, and what stands at the bottom

frame-my-work = My work
frame-job = Job { $job }
frame-scan = Scan
sent-all = all sent
sent-unsent = { $count } unsent
sent-heard = heard { $time }
sent-not-heard = not heard yet
sent-no-server = no server
sent-not-taken-in = { $count } not taken in

not-saved = NOT saved.
not-saved-to-file = Save to a file
not-saved-read = I have read it
trouble-older = This app is older than what is stored on this phone. It can send and export, but not record. Load the page again, to get the new one.
trouble-blocked = Seamtag is open in another tab with an older version. Close that tab; nothing is lost.
trouble-load-again = Load again

update-here = A new version of Seamtag is here. What is unsent stays as it is.
update-now = Update now
update-gone = A new version of Seamtag has taken over in another tab. Load this one again; nothing that was saved is lost.
desk-no-server = The server is not reached
desk-no-server-how = This screen comes from the server. Go where there is a network, then try again. What was recorded is safe on this phone.
desk-try-again = Try again

mark-in = good
mark-out = out of tolerance
mark-close = not decided
mark-open = open
mark-started = begun
mark-blocked = stopped
mark-waiting = waiting for a signature

stop = Stop
stop-sign = STOP
stop-wait-for = Wait for { $party }
stop-work-before = Work before this is not done
stop-scrapped = scrapped
stop-then = , then{" "}
stop-more = and { $count } more

## Saving and sending

save-full = This phone's storage is full. Save what is unsent to a file, and make room.
save-no-key = Your key is no longer on this phone. Ask for a new invitation.
save-newer-key = You have a newer key on this phone. Lock, and unlock with its PIN.
save-too-large = This is larger than a record can be. Write less.
save-other-tab = Another tab was faster. Try again.
photo-no-picture = This file is no picture, or it is damaged. Nothing was saved. Take the photo again.
net-unreachable = The server cannot be reached.
net-between = Something between this phone and the server answered instead of it.
net-odd = The server did not answer as it should.
net-does-not-fit = The server's answer does not fit what was sent.
net-full = This phone's storage is full: what the server says cannot be kept.

## Settings

settings = Settings
settings-back = Unlock
settings-language = Language
settings-gloves = Large keys
settings-gloves-says = For thick gloves: wider keys, more room between them.
settings-outdoor = For the sun
settings-outdoor-says = Black on white, in heavier type. Turn the phone's brightness up as well.
settings-left = Left hand
settings-left-says = What is pressed most lies on the left.
settings-vibration = Vibration
settings-vibration-says = A short one for good, two long ones for anything else. Some phones cannot.
settings-sound = Sound
settings-sound-says = High for good, low for anything else.
settings-try = Try it: not good

## Data kept on this phone, and installing

install-title = Is it safe here?
install-kept = This browser has promised to keep what is recorded here until it is sent.
install-not-kept = This browser has not promised to keep what is recorded here: where the phone is short of room, it may erase it. Put Seamtag on the home screen, and send often.
install-done = Seamtag is on the home screen. That is the safest place.
install-why = On the home screen, what you recorded is kept more safely than in a browser's tab. Open the browser's menu and choose to install it, or to add it to the home screen.
install-now = Put it on the home screen
install-ios = In this tab, an iPhone or iPad erases what you recorded once Seamtag was not used for seven days: if it is not opened again, after { $until }.
install-ios-unsent = { $count ->
    [one] 1 record is unsent. In this tab, an iPhone or iPad erases it once Seamtag was not used for seven days: if it is not opened again, after { $until }.
   *[other] { $count } records are unsent. In this tab, an iPhone or iPad erases them once Seamtag was not used for seven days: if it is not opened again, after { $until }.
  }
install-ios-how = Tap Share, then Add to Home Screen, and record from there only. It has a store of its own: send what is unsent here first, and enrol there by a new invitation.

## Day review

review = Day review
review-offline = { $says } The review needs the server; what was recorded is safe.
review-stale = As heard at { $time }; the server is not answering. What is signed here is kept and goes out when it is back.
review-stale-says = As heard at { $time }. { $says }
review-flags-offline = These flags have not been fetched yet, and the server is not answering.
review-not-yours = The day review is for supervisors, inspectors and the office. What you are to do is on My work.
review-loading = Fetching the day …
review-choose-day = Day and shift
review-day-before = day before
review-day-after = day after
review-today = today
review-shifts = Shifts
review-whole-day = whole day
review-shift = { $from } to { $to }
review-counts = { $shift ->
    [0] Of this day:
   *[other] Of this shift:
  } { $recorded } recorded; { $flags } flags: { $open } open, { $decided } decided, { $on_the_spot } fixed on the spot, { $closed } closed
review-counts-away = { $shift ->
    [0] Of this day:
   *[other] Of this shift:
  } { $recorded } recorded; { $flags } flags: { $open } open, { $away } signed here, { $decided } decided, { $on_the_spot } fixed on the spot, { $closed } closed
review-open-now = Open now, of any day: { $open }
review-away = { $count } signed here, not sent yet
review-not-begun = { $shift ->
    [0] This day has not begun.
   *[other] This shift has not begun.
  }
review-listed-any = { $state ->
    [decided] Decided, of any day, the worst first.
   *[open] Open now, of any day, the worst first.
  }
review-listed-day = { $shift ->
    [0] Those of this day, the worst first.
   *[other] Those of this shift, the worst first.
  }
review-open-flags = { $count ->
    [one] 1 flag open
   *[other] { $count } flags open
  }
review-released = { $count ->
    [one] 1 step released
   *[other] { $count } steps released
  }
review-spot-count = { $count } fixed on the spot
review-ways = Reports and lists
review-report = Day report
review-rework-sheet = Rework list
review-silent = { $count ->
    [one] 1 phone not heard from
   *[other] { $count } phones not heard from
  }
review-silent-waiting = { $count ->
    [one] 1 phone not heard from, { $waiting } waiting on it
   *[other] { $count } phones not heard from, { $waiting } waiting on them
  }
review-missing = { $count ->
    [one] 1 person has not recorded yet
   *[other] { $count } people have not recorded yet
  }
review-all-heard = All phones heard from
review-list-ready_for_ai = ready for the AI
review-list-blocked = blocked by a signature
review-list-reports = reports to see to
review-list-rework = decided, not done
review-list-title = { $title }: { $count }
review-says-ready_for_ai = Everything is recorded and signed up to the Authorized Inspector: these can be signed at the next visit.
review-says-blocked = These cannot go on until somebody signs what they stand behind.
review-says-reports = Asked for and not back, or back at a step that is not released yet.
review-says-rework = Decided and not carried out yet, the oldest first.
review-none-ready_for_ai = Nothing waits for the Authorized Inspector.
review-none-blocked = Nothing is blocked.
review-none-reports = No report is outstanding.
review-none-rework = Nothing is left to do: all that was decided is carried out.
review-ready-since = { $days ->
    [0] since today
    [one] for 1 day
   *[other] for { $days } days
  }
review-days = { $days ->
    [0] today
    [one] 1 day
   *[other] { $days } days
  }
review-behind = { $party }: { $mark } { $number }
review-behind-more = { $party }: { $mark } { $number } and { $count } more
review-behind-step = at { $mark } { $number } { $step }
review-report-back = { $what }: is back
review-report-asked = { $what }: { $days ->
    [0] asked for today
    [one] asked for 1 day ago
   *[other] asked for { $days } days ago
  }
review-report-overdue = { $what }: asked for { $days } days ago, { $late ->
    [one] 1 day overdue
   *[other] { $late } days overdue
  }
review-rework-since = { $what }, { $days ->
    [0] decided today
    [one] decided 1 day ago
   *[other] decided { $days } days ago
  }
review-rework-ncr = { $disposition }, NCR { $ncr }
review-rework-waits = { $what }, waits for { $parties } to agree
review-more = { $count } more
review-flags = Flags
review-by-state = Flags by state
review-by-job = Job
review-by-stage = Stage
review-by-kind = Kind
review-by-person = Recorded by
review-all = all
review-option = { $name } ({ $count })
review-clear = Clear
review-left = { $left } of { $all } flags.
review-first-only = Only the first { $listed } are listed; the rest follow as these are done.
review-no-flags = No flags here.
review-none-left = No flag is left by these filters.
review-all-decided = Nothing is open: every flag is decided.
review-all-decided-next = What phones send from now on shows here by itself.
review-piece = Piece
review-job = Job
review-item = Item
review-who = Who, when
review-column-piece = Piece
review-column-item = Item and step
review-column-value = Value and limit
review-column-kind = What is wrong
review-column-who = Who, when
review-marked = Marked to be decided together
review-mark = Mark { $place }
review-new = new
review-begun = reason begun
review-came = { $count ->
    [one] 1 new: { $marks }.
   *[other] { $count } new: { $marks }.
  }
review-signed = { $count ->
    [one] Signed and saved: { $disposition }, { $marks }.
   *[other] Signed and saved: { $disposition }, { $count } flags.
  }
review-signed-here = { $count ->
    [one] Saved on this device: { $disposition }, { $marks }. It goes out when the server is back.
   *[other] Saved on this device: { $disposition }, { $count } flags. They go out when the server is back.
  }
review-signed-back = Back to { $marks }
review-not-signed = { $place }: not signed. { $why }
review-opened = Opened flag
review-to-list = Flags
review-gone = This flag is no longer there: a later record has settled it.
review-past-tolerance-times = { $margin } { $uom } past its limit: { $share } times the tolerance.
review-past-tolerance-part = { $margin } { $uom } past its limit: { $share } of the tolerance.
review-past-gauge-times = { $margin } { $uom } past its limit: { $share } times the gauge's uncertainty.
review-past-gauge-part = { $margin } { $uom } past its limit: { $share } of the gauge's uncertainty.
review-past-limit-times = { $margin } { $uom } past its limit: { $share } times the limit.
review-past-limit-part = { $margin } { $uom } past its limit: { $share } of the limit.
review-binds = binds by { $what }
review-binds-source = binds by { $what }: { $source }
review-photo-large = See the photo large: { $photo }
review-photo-lost = A photo cannot be shown: the server was not reached.
review-photo-coming = A photo is still on its way.
review-photo-at = { $place }, step { $number } { $step }.
review-photo-by = { $place }, step { $number } { $step }. { $person }, { $time }.
review-photo-drawn = { $count ->
    [one] 1 mark is drawn over the photo; the photo itself is unchanged.
   *[other] { $count } marks are drawn over the photo; the photo itself is unchanged.
  }
review-facts = What it is about
review-fact-recorded = Recorded
review-fact-by = { $person }, { $time }
review-fact-step = Step
review-fact-limit = Limit
review-fact-gauge = Gauge
review-fact-procedures = Procedures
review-gauge-due = { $name }, calibrated until { $due }
review-gauge-u = { $name }, U { $uncertainty }
review-gauge-due-u = { $name }, calibrated until { $due }, U { $uncertainty }
review-to-step = To step { $step } of { $mark }
review-last = Last { $count } readings of { $item }
review-trend = The last { $count } readings of { $item }, from { $least } to { $most } { $uom }
review-to-trends = To all readings of { $item }
review-history = As found, as left
review-history-here = this flag
review-history-about = about: { $kind }
review-others = Also recorded at this step
review-others-more = { $count } more at this step
review-mark-alike = Mark all { $count } that are alike
review-unmark = Unmark all
review-keys = Keys
review-key-move = to the next flag, to the one before
review-key-ends = to the first, to the last
review-key-open = to the opened flag
review-key-mark = mark the flag, to decide several at once; the space bar does the same
review-key-alike = mark all that are alike
review-key-choose = choose what becomes of it, by the figure on the key
review-key-sign = sign
review-key-back = back; take back what is chosen or marked
review-key-help = this list
review-keycap-ends = Home End
review-keycap-open = Enter
review-keycap-sign = Ctrl Enter
review-keycap-back = Esc
review-keys-act = Keys of one letter or figure act
review-keys-close = Close
review-ncr = Decisions and NCRs
review-says-ncr = What was decided about findings, the oldest first.
review-ncr-which = Which decisions
review-ncr-open = not carried out
review-ncr-all = all
review-group = Put together
review-group-age = by age
review-group-piece = by piece
review-group-disposition = by decision
review-none-ncr = Nothing is left to do: all that was decided is carried out.
review-none-ncr-all = Nothing was decided yet.
review-ncr-seen = Seen, stands as it is: { $count }
review-says-seen = Doubts about how something was found, by whom, or by which way it came. They were looked at; no finding was accepted by that.
review-ncr-number = NCR
review-ncr-none = none
review-ncr-named = NCR { $ncr }
review-ncr-days = Days
review-ncr-what = Decided
review-ncr-why = Why
review-how-it-stands = How it stands
review-cycle = R{ $cycle }
review-again = { $count ->
    [one] 1 step again
   *[other] { $count } steps again
  }
review-waits-for = waits for agreement: { $parties }
review-piece-of-job = { $mark }, job { $job }
review-since = Since
review-behind-what = Who lets it go, and where
review-report-what = Report
review-spot = Fixed on the spot
review-spot-title = Fixed on the spot: { $count }
review-says-spot = Found out of tolerance or rejected and put right by whoever found it, before anybody had signed. It needs no word; what comes often may.
review-none-spot = Nothing was fixed on the spot.
review-times = { $count ->
    [one] once
   *[other] { $count } times
  }
review-found = As found
review-rejected = rejected
review-not-heard = Not heard from
review-says-silent = What is on these phones is safe there, and counts only once it is here.
review-phones = Phones
review-phone = Phone
review-person = Person
review-last-heard = Last heard
review-waiting = Waiting
review-oldest = Oldest
review-holds = Room on the phone
review-holds-for = for about { $length }
review-holds-only = only for { $length }: bring it to the network
review-holds-no-more = none left: bring it to the network today
review-none-silent = Every phone was heard from in the last two hours.
review-people-missing = Recorded the day before, and nothing today
review-last-recorded = Last record
review-none-missing = Everybody who recorded the day before has recorded today.

## Finder: the camera in its frame

finder-picture = Camera
finder-hold = Hold the code inside the frame. Where there are two, either will do.
finder-several = Two different codes are in sight. Go closer to the one that is meant, or cover the other.
finder-nothing = No code found yet. Wipe it clean, go closer, put light on it. You can also go on below, without the camera.
finder-light-on = Light on
finder-light-off = Light off
finder-lens = Other lens
finder-again = Try again
finder-not-allowed = The camera is not allowed. Allow it in the browser's settings for this page, or go on below without it.
finder-none = There is no camera here. Go on below without it.
finder-not-secure = The browser gives no camera to this page, since its address does not begin with https. Open it by its https address, or go on below without the camera.
finder-busy = The camera does not start; another app may hold it. Close that app, or go on below without the camera.
finder-no-reader = The camera works, but what reads the codes did not load. Connect once, or go on below without the camera.

## Scan

scan-title = Scan
scan-field = Code on the tag, or a mark
scan-open = Open
scan-tag-gone = Tag gone? Pick the mark
scan-marks-of = Marks of job { $job }
scan-marks-found = { $count ->
    [one] 1 mark
   *[other] { $count } marks
}
scan-pick = Several marks fit. Pick one below, or type more.
scan-no-mark = No job on this phone has a mark like it.
scan-type-more = And { $count } more. Type more of the mark, its name or its job.
scan-again = Scan
scan-open-all-the-same = Open its piece all the same
scan-on-its-way = What this phone has not heard yet may still be on its way. Its piece opens here by itself as soon as its job has come.
scan-no-tag = This symbol is no tag of a piece, or a symbol of its code is damaged. Try the other one, or type the code.
scan-unknown = No tag on this phone has the code { $code }. It may belong to a job this phone does not carry, or to another shop. Pick the mark from the list.
scan-other-shop = This tag belongs to another shop ({ $host }). Nothing was opened. Is it the right piece?
scan-replaced = The tag { $code } was replaced: piece { $mark } of job { $job } now has the tag { $now }. Take the old one off, and scan the new one.
scan-other-board = This is the board of a job of another shop ({ $host }). Nothing was opened.
scan-no-job = This is the board of job { $job }, which is not on this phone. Connect once to fetch it.
scan-gauge = This is the sticker of gauge { $gauge }, { $name }. Scan it where a reading asks for the gauge.
scan-no-gauge = This is the sticker of gauge { $gauge }, which this phone does not know. Connect once, or ask who keeps the gauges.
scan-odd-symbol = '{ $typed }' is no code: no code has { $symbol } in it. Look at the tag again.
scan-wrong-length = '{ $typed }' is no code: it has { $count } of { $asked } symbols. Look at the large type between the two QR symbols.
scan-no-fit = '{ $typed }' is no code: a symbol is wrong, or two are swapped. Its last symbol does not fit the others. Look at the tag again.

## Job: its pieces by mark

job-not-here = Job { $job } is not on this phone. Connect once to fetch it.
job-title = Job { $job }
job-board = From the board of this job
job-field = Mark or name
job-none-fits = No mark of this job fits '{ $typed }'. Type less of it.
job-count = { $count ->
    [one] 1 mark
   *[other] { $count } marks
}
job-more = Show { $count } more
job-next-stopped = { $step } · stopped
job-next-flagged = { $step } · not as it should be
job-next-waits = { $step } · waits for { $party }
job-released = released
job-of-parts = finished when its parts are

## Tag of a piece

tagging-none = No tag was drawn for this piece.
tagging-not-yet = not put on yet
tagging-off-heat = taken off for heat
tagging-off-blast = taken off for blast
tagging-code = Tag
tagging-change = Change
tagging-ask = Tag { $code }, { $state }. What is done with it?
tagging-do-put-on = Put on
tagging-do-taken-off-heat = Taken off for heat
tagging-do-taken-off-blast = Taken off for blast
tagging-do-back-on = Back on
tagging-do-gone-inside = Gone inside
tagging-do-replaced = Replaced by a new label
tagging-leave = Leave it

## My work

work-scan = Scan a tag
work-review = Day review
work-nothing = Nothing waits for you. Scan a tag to begin a step.
work-looking = Looking what waits for you
work-rework = Rework and repair
work-rework-what = { $disposition }: { $reason }
work-rework-what-ncr = { $disposition }, NCR { $ncr }: { $reason }
work-rework-where = { $step } · { $item }
work-rework-where-station = { $step } · { $item }, { $station }
work-rework-photo = Photo of what was found at { $mark }
work-begun = You began, not finished
work-begun-what = { $step } · { $met } of { $asked } done
work-begun-flagged = { $step } · not as it should be
work-ready = Ready for you
work-ready-complete = { $step } · ready to sign
work-ready-started = { $step } · begun, { $met } of { $asked } done
work-ready-open = { $step } · not begun
work-calls = Calls
work-called-to = You are called
work-call-coming = { $party } called for { $when } · coming
work-call-waived = { $party } called for { $when } · waived
work-call-open = { $party } called for { $when } · not answered yet
work-call-no-time = { $party } called, no time said · { $answer }
work-call-not-answered = not answered yet
work-notes = From the last shift
work-notes-by = { $name } · { $at }
work-asked = Asks for your word
work-in-job = job { $job }
work-more = { $count ->
    [one] and 1 more
   *[other] and { $count } more
  }
work-jobs = Jobs
work-no-jobs = No job is on this phone yet. They are fetched while there is a network.
work-lock = Lock
work-pin = Change PIN
work-badge = Badge

## Piece

piece-not-here = This piece is not on this phone. Connect once to fetch its job, or scan again.
piece-found-scanned = tag scanned
piece-found-typed = code typed
piece-found-list = picked from the list
piece-found-board = from the tag board
piece-kind = { $kind } · { $job }
piece-joins = joins { $marks }
piece-part-of = part of { $marks }
piece-has-parts = { $count ->
    [one] 1 part: { $marks }
   *[other] { $count } parts: { $marks }
  }
piece-joined-by = joined by { $marks }
piece-repairs = Repair cycle R{ $count }
piece-done-of = { $met } of { $asked } done
piece-flagged = not as it should be · { $met } of { $asked } done
piece-sign = ready to sign
piece-waits-for = all is recorded · waits for { $party }
piece-finished = Every step is released.
piece-no-steps = Nothing is asked of this piece itself: it is finished when its parts are.
piece-another = Scan another tag
piece-not-taken-in = { $count ->
    [one] 1 record was not taken in by the server, and is not counted.
   *[other] { $count } records were not taken in by the server, and are not counted.
  }
piece-missing = { $count ->
    [one] 1 record is not on the server any more since it was restored, and is not counted.
   *[other] { $count } records are not on the server any more since it was restored, and are not counted.
  }
piece-which = See which, and why
piece-steps = Steps
piece-step-stopped = stopped
piece-signed = { $party }: { $name }
piece-signed-absent = { $party } not attended, after notice: { $name }
piece-signed-ink = { $party } in ink on paper, entered by { $name }
piece-next = { $party } next: { $point }
piece-next-named = { $party } next: { $point } ({ $names })
piece-released-by = Who can release it: { $names }
piece-later = { $party }: { $point }
piece-records = { $count ->
    [one] 1 record
   *[other] { $count } records
  }
piece-records-of = What was recorded at { $step }
piece-record-by = { $name } · { $at }
piece-record-weld = { $layer } pass, stamp { $stamp }
piece-record-report = { $number }, { $state }
piece-record-report-bare = report { $state }
piece-record-sign-off = signed for { $party }
piece-record-call = { $party } called for { $when }
piece-record-answer = { $party }: { $answer }
piece-record-disposition = { $disposition }: { $reason }
piece-record-point = { $point } set by { $party }
piece-record-photo = photo
piece-record-at = { $item }, { $station }

## Notes on a piece

notes = Notes
notes-for-shift = For this shift
notes-clear = Seen, clear
notes-by = { $name } · { $at }
notes-write = Write a note
notes-note = Note
notes-keep-on-top = Keep it on top for the next shift
notes-save = Save the note

## Agreeing to use as is

agree-what = Use as is: { $reason }
agree-what-ncr = Use as is: { $reason } · NCR { $ncr }
agree-binds = the limit binds by { $binds }
agree = Agree
agree-for = Agree for { $party }
agree-not-now = Not now

## Deciding at a flag

decide = What becomes of it
decide-closed = This flag is { $state }.
decide-closed-by = This flag is { $state }. { $person }: { $disposition }. { $reason }
decide-decided = Decided: { $what }.
decide-to-do = Decided: { $what }. It is not carried out yet.
decide-waits = { $count ->
    [one] Decided: { $what }. It has no effect until { $parties } agrees.
   *[other] Decided: { $what }. It has no effect until { $parties } agree.
  }
decide-said = { $person }: { $reason }
decide-signed-here = Signed on this device: { $disposition }. It shows as decided once the server has it.
decide-supervisor = A supervisor decides what becomes of it.
decide-supervisor-named = A supervisor decides what becomes of it: { $names }.
decide-no-job = Job { $job } is not on this device yet. Wait until it is fetched, then try again.
decide-own = You recorded this yourself, and the plan wants another to decide. Leave it to another supervisor.
decide-some-own = { $count ->
    [one] 1 of these was recorded by you, and the plan wants another to decide: it stays open.
   *[other] { $count } of these were recorded by you, and the plan wants another to decide: they stay open.
  }
decide-together = { $count ->
    [one] 1 flag marked: one word, signed for it
   *[other] { $count } flags marked: one word, signed for each
  }
decide-agree = Use as is on a limit of the { $binds } is not the shop's alone to give: { $parties } must agree. Until then it has no effect.
decide-cycle = This is repair R{ $cycle } of { $mark }.
decide-scrap = Scrap stops this piece and what it is part of.
decide-scrap-alone = Scrap stops { $marks }.
decide-scrap-stops = { $count ->
    [one] Scrap stops { $marks } and what it is part of: { $wholes }.
   *[other] Scrap stops { $marks } and what they are part of: { $wholes }.
  }
decide-sure = Scrap cannot be taken back by another word. Sign once more, or leave it.
decide-scrap-sign = Scrap { $marks }: sign
decide-scrap-not = Do not scrap { $marks }
decide-begun = A reason was begun here and is not signed yet.
decide-read-first = Read what was written here before, then sign.
decide-sign-anew = No word closes this: the step has to be signed anew.
decide-not-here = This word is not for what is marked or opened here.
decide-reason = Reason
decide-reason-first = Write the reason first.
decide-ncr = NCR number, if any
decide-extent = Extent
decide-extent-like = from 3 to 5 o'clock
decide-again = { $count ->
    [0] Steps to inspect again: none
    [one] Steps to inspect again: 1
   *[other] Steps to inspect again: { $count }
  }
decide-again-which = All that was recorded at these steps counts no more and is recorded again.
decide-sign = Sign: { $disposition }
decide-sign-several = Sign { $count }: { $disposition }
decide-progress = { $count } of { $all } signed

## Step: cautions, items in order

step-not-asked = This step is not asked of this piece. Go back and choose another.
step-place = { $mark } · { $number }
step-items = Items
step-next = Next: { $item }
step-left = { $stations } to do
step-left-more = { $count ->
    [one] 1 more to do
   *[other] { $count } more to do
  }
step-left-count = { $count } stations to do
step-photo-asked = photo asked
step-found-at = { $station }: { $says }
step-found-more = and { $count } more

cautions-before = Before you begin here
cautions-defer = The shop's rules, local codes and licensed practice come first: where they ask for more than stands here, do that. In doubt, stop and ask.
cautions-read = I have read this
cautions-again = { $count ->
    [one] The caution of this step
   *[other] The { $count } cautions of this step
  }

stop-still-open = Hold still open: { $places }. You go on by somebody's word; it is recorded.
told-nothing-before = Nothing may be done here before that. If you were told to go on, say by whom: it is recorded, and the supervisor sees it.
told-to-go-on = I was told to go on
told-by-whom = By whom, and why
told-record = Record that, and go on
told-note = Told to go on at { $number } { $step }: { $why }

## Item: what was recorded, checks by eye, texts, reports

item-locked = The app is locked. Unlock it, and save again.
item-not-asked = This item is not asked of this piece. Go back and choose another.
item-place = { $mark } · { $number }
item-next = Next: { $item }
item-back-to-step = Back to { $step }

recorded = Recorded
recorded-weld = { $layer } { $stamp }
recorded-line-out = Line out
recorded-why-void = Why is { $says } not to count? This is final; it stays legible.
recorded-void = Line it out
recorded-judged = received and judged
recorded-received = received
recorded-not-taken-in = not taken in
recorded-saved = saved on this phone

visual-at = At { $station }
visual-accept = Accept
visual-reject = Reject
visual-does-not-apply = Does not apply
visual-note = Note, if there is something to say
visual-what-is-wrong = What is wrong
visual-save-rejected = Save as rejected
visual-not-rejected = Back, not rejected
visual-rejected = Rejected, recorded as found.
visual-rejected-next = Take a photo of it with the key below. Left so, the supervisor decides what becomes of it.
visual-leave = Leave it so, go on

text-as-stamped = As it stands on the piece
text-save = Save
text-saved-as = Saved as { $value }
text-choose-why = Choose why

report-number = Report number
report-firm = Firm
report-person = Person who made it, if known
report-level = Their level, if known
report-pages = { $count ->
    [0] Photograph the pages below: they go with the report.
    [one] 1 page photographed: it goes with the report.
   *[other] { $count } pages photographed: they go with the report.
  }
report-in = The report is in, with the result
report-number-first = The report number comes first.
report-asked-for = Asked for, not back yet
report-was-in = It was in: { $name }, { $at }
report-was-asked-for = Asked for by { $name }, { $at }

## Photos and marks over them

photos = Photos
photo-take = Photo
photo-take-next = Next photo
photo-from-gallery = From gallery
photo-asked = A photo is asked for here.
photo-saving = { $count ->
    [one] Saving the photo
   *[other] Saving { $count } photos
  }
photo-of = { $item }, { $place } of { $count }
photo-with-marks = { $count ->
    [one] { $photo }, with 1 mark
   *[other] { $photo }, with { $count } marks
  }
photo-not-here = { $photo }: not on this phone, but on the server.
photo-on-phone = saved on this phone
photo-sent = its record is sent, the photo follows
photo-on-server = on the server
photo-refused = the server does not take it: { $reason }
photo-damaged = on the server, but cannot be shown: { $reason }
photo-no-room = This phone has no room for another photo. Photos are let go of once they are on the server and in its backup.
photo-room-left = { $count ->
    [one] This phone has room for about 1 more photo. Photos are let go of once they are on the server and in its backup.
   *[other] This phone has room for about { $count } more photos. Photos are let go of once they are on the server and in its backup.
  }
photo-make-room = Send, or save to a file

mark-up-close = Close
mark-up-leave = Close, without the new marks
mark-up-tool-arrow = Arrow
mark-up-tool-ring = Ring
mark-up-larger = Larger ring
mark-up-smaller = Smaller ring
mark-up-arrow-to = Tap what the arrow is to point to.
mark-up-arrow-from = Now tap where the arrow begins.
mark-up-ring = Tap the middle of the ring.
mark-up-ring-size = Make the ring smaller or larger with − and +, or tap the middle of the next.
mark-up-rub-out = Rub out last
mark-up-save = Save marks

## Sign-off

sign = Sign-off
sign-released = Released. What is recorded here from now on is shown to the supervisor.
sign-next = Next to sign: { $party }.
sign-items-open = { $count ->
    [one] 1 item is open before { $party } can sign: { $items }.
   *[other] { $count } items are open before { $party } can sign: { $items }.
  }
sign-items-open-many = { $count } items are open before { $party } can sign.
sign-for = Sign for { $party }
sign-absent = Not attended after notice
sign-signs = { $name } signs.
sign-covers = It covers { $what }.
sign-covered = { $count ->
    [one] The 1 record it covers
   *[other] The { $count } records it covers
  }
sign-count-reading = { $count ->
    [one] 1 reading
   *[other] { $count } readings
  }
sign-count-visual = { $count ->
    [one] 1 visual check
   *[other] { $count } visual checks
  }
sign-count-weld = { $count ->
    [one] 1 weld pass
   *[other] { $count } weld passes
  }
sign-count-report = { $count ->
    [one] 1 report
   *[other] { $count } reports
  }
sign-count-text = { $count ->
    [one] 1 text
   *[other] { $count } texts
  }
sign-count-photo = { $count ->
    [one] 1 photo
   *[other] { $count } photos
  }
sign-count-decided = { $count ->
    [one] 1 decision or lining out
   *[other] { $count } decisions and linings out
  }
sign-sentence-made = The work of step { $number } at { $mark } is done.
sign-sentence-released = { $count ->
    [one] I release step { $number } at { $mark }, on the record listed.
   *[other] I release step { $number } at { $mark }, on the { $count } records listed.
  }
sign-sentence-absent = { $count ->
    [one] Step { $number } at { $mark }: { $party } was called and did not attend. I go on, on the record listed.
   *[other] Step { $number } at { $mark }: { $party } was called and did not attend. I go on, on the { $count } records listed.
  }
sign-pin = PIN of { $name }
sign-do = Sign
sign-busy = Signing
sign-nothing-signed = { $why } Nothing was signed.
sign-somebody-else = Somebody else signs
sign-back-to-me = Back: { $name }
sign-who = Who signs
sign-nobody-else = Nobody else has a key on this phone. With an invitation, they enrol on it once: lock, then 'I have an invitation'.
sign-has-no-role = { $name } has no role that signs for { $party }.
sign-signed-by = Signed by { $name }. This phone is still { $me }'s.

ink-signed = Signed in ink on paper
ink-what-counts = An inspector or supervisor enters what { $party } signed on paper: they photograph the page, and sign over its photo.
ink-seen = The supervisor sees each of these in the day review. Keep the page with the papers of the job: the signature is on the paper.
ink-who-may = An inspector or supervisor enters it, with their own PIN.
ink-who-may-named = An inspector or supervisor enters it, with their own PIN: { $names }.
ink-who = Who signed the page
ink-name-first = Say first who signed the page.
ink-photograph = Photograph the page
ink-again = Photograph it again
ink-page-of = The page that { $name } signed is photographed. The sign-off is still to come.
ink-not = Back, not in ink
ink-caption = Page signed in ink by { $name }, for { $party }
ink-enter = Enter the page for { $party }
ink-sentence = { $count ->
    [one] { $name } released step { $number } at { $mark } for { $party }, in ink on the page photographed. I have seen the page, and enter it on the record listed.
   *[other] { $name } released step { $number } at { $mark } for { $party }, in ink on the page photographed. I have seen the page, and enter it on the { $count } records listed.
  }

## Calls to a point

call-hold-by = Hold by { $party }
call-witness-by = Witness by { $party }
call-not-yet = Not called yet.
call-not-yet-witness = Not called yet. Nothing goes on before that.
call-answer = Answer: { $answer }
call-called = Called
call-called-for = Called for { $when }
call-called-how = Called, { $how }
call-called-for-how = Called for { $when }, by { $how }
call-by = { $name } · { $at }
call-party = Call { $party }
call-again = Call again
call-i-come = I am coming
call-they-come = They come
call-i-waive = I waive it
call-they-waive = They waive it
call-for-when = For when
call-how = How
call-record = Record the call

## Measuring

limit-between = { $lower } to { $upper } { $uom }
limit-at-most = at most { $upper } { $uom }
limit-at-least = at least { $lower } { $uom }
limit-none = recorded, no limit
limit-both = { $own } ({ $other })
limit-about = about { $value }
limit-bar = limit { $limits }

keypad-over = over { $under }
keypad-fraction-bar = fraction bar
keypad-blank = blank
keypad-rub-out = rub out
keypad-minus = minus
keypad-clear = clear
keypad-point = point
keypad-dash = dash
keypad-letters = ABC
keypad-letters-name = letters

measure-limits = { $limits } · { $binds }
measure-at = At { $station }
measure-at-number = Station { $station }
measure-at-clock = At { $station } o'clock
measure-stations-done = { $done } of { $asked } recorded
measure-station-open = { $station }, open
measure-station-good = { $station }, { $value }, good
measure-station-bad = { $station }, { $value }, not good
measure-change = Other station
measure-choose-station = { $done } of { $asked } are recorded. Choose one, to read it again.
measure-at-place = { $word } { $station }
measure-change-place = Other { $word }
measure-clock = Clock
measure-seen-from = seen from the { $end }
measure-which-count = Which { $word } ({ $done } of { $least })
measure-then-reading = Reading
measure-instead = { $uom } instead
measure-verdict = { $verdict }
measure-verdict-by = { $verdict } by { $margin } { $uom }
measure-verdict-why = { $verdict }: { $reason }
measure-verdict-by-why = { $verdict } by { $margin } { $uom }: { $reason }
measure-saved = { $entered } { $uom }, { $verdict }: saved on this phone
measure-saved-at = { $station }: { $entered } { $uom }, { $verdict }: saved on this phone
measure-save = Save
measure-choose-why = Choose why
measure-source = Source of the limit: { $source }
measure-fed = Worked out with it
measure-fed-value = { $item }: { $value } { $uom }, { $verdict }
measure-fed-value-at = { $item }, { $station }: { $value } { $uom }, { $verdict }
measure-fed-waits = { $item }: waits for other readings
measure-fed-waits-at = { $item }, { $station }: waits for other readings
measure-fed-no-value = { $item }: { $reason }
measure-fed-no-value-at = { $item }, { $station }: { $reason }

onward-photo = A photo of it is asked for: the button is at the bottom.
onward-note = What is to be seen there
onward-note-save = Save the note
onward-note-saved = The note is saved.
onward-another = To read it again, say why. What was found stays in the book.
onward-slip = Slip of the finger
onward-measured-again = Measured again
onward-after-rework = Fixed on the spot
onward-after-repair = Left so after repair
onward-after-rework-decided = Left so after rework
onward-leave = Leave it so, go on
onward-leave-says = The supervisor decides what becomes of it.

again-instead = Instead of { $before }, which stays in the book:
again-instead-why = Instead of { $before }, which stays in the book: { $why }
again-what-is-there = what is there
again-other-reason = Other reason

gauge-now = { $name } · calibrated to { $due }
gauge-now-no-day = { $name } · no day of calibration
gauge-none = No gauge of this kind is on the shelf: { $kind }
gauge-none-asked = No gauge is asked for here.
gauge-calibrated = Gauge, calibrated to { $due }
gauge-no-day = Gauge, without a day of calibration
gauge-ran-out = The calibration of this gauge ran out on { $due }. Take another; a reading with it is flagged.
gauge-coarse = This gauge is coarse for this limit: { $reason }.
gauge-scan = Scan its sticker
gauge-scan-stop = Stop scanning
gauge-scan-hold = Hold the sticker of the gauge in the frame.
gauge-not-a-sticker = That is no gauge's sticker. Scan the one that is on the gauge.
gauge-unknown = Gauge { $id } is not known on this phone. Connect once to fetch the list, or ask the planner to enter it.
gauge-wrong-kind = { $name } is a { $kind }; a { $asked } is asked for here.
gauge-scanned-ran-out = The calibration of { $name } ran out on { $due }. Take another.

## Why something is not judged

reason-limit-not-known = limit not known: { $why }
reason-limits-crossed = the lower limit is above the upper
reason-revision-not-here = the plan revision or figures are not here
reason-formula-yes-or-no = the formula gives yes or no where a number is needed
reason-condition-number = the condition gives a number where yes or no is needed
reason-too-deep = the formula is nested too deep
reason-newer-plan = '{ $name }' is unknown; the plan was made for a newer Seamtag
reason-number-needed = yes or no stands where a number is needed
reason-yes-or-no-needed = a number stands where yes or no is needed
reason-division-by-zero = division by zero
reason-too-large = the result is too large
reason-too-small = the result is too small
reason-root-of-negative = square root of a negative value
reason-no-function = there is no function { $name }()
reason-takes-one-item = { $name }() takes one item
reason-readings-disagree = readings of { $name } disagree
reason-only-one = only one { $name }
reason-no-table = there is no table '{ $name }'
reason-table-begins-above = table '{ $name }' begins above the value
reason-table-no-value = table '{ $name }' has no value there
reason-above-zero = { $what } must be above 0, and it is { $is }
reason-not-below-zero = { $what } must not be below 0, and it is { $is }
reason-efficiency-above-one = the efficiency must not be above 1, and it is { $is }
reason-share-above-hundred = the share of { $element } must not be above 100, and it is { $is }
reason-not-in-contact = not yet in contact: the inside diameter is { $is }, and must first grow by { $by } to { $to }
reason-no-wall = the tube has no wall: its outside diameter { $outside } is not above its inside diameter { $inside }
reason-does-not-go-in = the tube does not go in: the hole { $hole } is below its outside diameter { $outside }
reason-uncertainty-not-known = the gauge's uncertainty is not known
reason-nearer-than-gauge = nearer to the limit than the gauge can tell
reason-coarse-tolerance = its uncertainty is over a quarter of the tolerance
reason-coarse-limit = its uncertainty is over a quarter of the limit
reason-no-such-item = the plan has no such item
reason-no-reading-asked = recorded in { $uom }, the plan asks no reading
reason-other-uom = recorded in { $uom }, the plan asks { $asked }
reason-gauge-not-known = the gauge { $gauge } is not known
reason-no-gauge = no gauge was named; the plan asks for one: { $kind }
reason-report-not-back = the report is not back
reason-not-given = { $lacking } not given
reason-must-apply = the plan does not allow 'does not apply' here
reason-calibrated-until = calibrated until { $until }
reason-phone-said = the phone said { $said }
reason-own-finding = disposes of own finding
reason-chain-fork = another record follows the same one of this key
reason-chain-gap = the record before it of this key has not come
reason-phone-shut-out = sent by a phone that is shut out
reason-never-came = what it relies on has not come
reason-no-picture = its picture has not come from the phone yet
reason-clock-fast = the phone's clock is fast by { $minutes } min or more: it came in before it was made
reason-clock-slow = the phone's clock is slow by { $minutes } min or more: it had seen what came in later
reason-rising-in-tolerance = rising: the average went from { $from } to { $to } of half the tolerance
reason-falling-in-tolerance = falling: the average went from { $from } to { $to } of half the tolerance
reason-rising = rising: the average went from { $from } to { $to } { $uom }
reason-falling = falling: the average went from { $from } to { $to } { $uom }
reason-missing = no { $name }
reason-nothing-typed = Nothing was typed. Type a number such as 1 7/8 or .875.
reason-too-many-digits = '{ $typed }' has more than { $most } digits. Type fewer.
reason-no-number-before-mark = '{ $typed }' has no number before its inch mark. Type a number such as 1 7/8.
reason-too-many-inches = '{ $typed }' has 12 inches or more beside its feet. Type it in inches alone.
reason-fraction-by-zero = '{ $typed }' divides by zero. Type the fraction again.
reason-no-rule-fraction = '{ $typed }' is no fraction of a rule: its lower figure is not 2, 4, 8, 16, 32, 64 or 128.
reason-fraction-of-one = '{ $typed }' has a fraction of one or more beside a whole number. Type it again.
reason-comma-and-point = '{ $typed }' has a comma and a point. Type it without one of them.
reason-has-comma = '{ $typed }' has a comma. Type the decimals after a point.
reason-has-point = '{ $typed }' has a point. Type the decimals after a comma.
reason-half-a-fraction = '{ $typed }' stops in the middle of a fraction. Type the figure under the line as well.
reason-not-a-number = '{ $typed }' is not a number. Type one such as 1 7/8 or .875.
reason-doubt = Is it { $one } or { $other }?

## Why a weld is not as its procedure asks, or its welder not qualified

reason-procedure-not-known = the procedure { $procedure } is not known
reason-procedure-withdrawn = the procedure { $procedure } is withdrawn since { $since }
reason-one-and-rest = { $one }; { $rest }
reason-procedure-at-least = { $what } { $is }: { $procedure } asks at least { $lower } { $uom }
reason-procedure-at-most = { $what } { $is }: { $procedure } asks at most { $upper } { $uom }
reason-procedure-between = { $what } { $is }: { $procedure } asks { $lower } to { $upper } { $uom }
reason-procedure-position = position { $position }: { $procedure } asks { $asked }
reason-value-why = { $what }: { $why }
reason-not-qualified = no qualification is kept
reason-not-qualified-yet = none for { $process } before { $before }
reason-not-qualified-process = none for { $process }
reason-qualification-lapsed = { $process } lapsed on { $on }; last proof { $last }
reason-qualified-to = { $process } to { $most } in; the item is { $is } in
reason-qualified-in = { $process } in { $positions }; welded in { $position }
reason-of-welder = { $welder }: { $lacks }

## The ways in: unlocking, PIN, badge, invitation

pin = PIN
pin-again = PIN once more
pin-rub-out = rub out
pin-too-short = A PIN has six digits or more.
pin-weak = This PIN is one of the first that anybody tries. Choose another.
pin-wrong = This is not the PIN.
pin-wait = { $seconds ->
    [one] Wait 1 second, then try again.
   *[other] Wait { $seconds } seconds, then try again.
  }
pin-differ = The two PINs differ. Type them again.

unlock-do = Unlock
unlock-busy = Unlocking
unlock-who = Who are you?
unlock-badge = Scan my badge
unlock-somebody-else = I am somebody else
unlock-have-invitation = I have an invitation
unlock-back = Back to my name
unlock-change-pin = Change PIN
unlock-forgotten = PIN forgotten
unlock-not = { $says } Nothing is lost; unsent records still go out.
unlock-no-store = This phone's storage does not answer. Close Seamtag's other tabs, then try again.
unlock-next-try = { $seconds ->
    [one] Next try in 1 second.
   *[other] Next try in { $seconds } seconds.
  }
unlock-asleep = Locked, since nobody touched it for a while. Your screen is as you left it.
unlock-asleep-other = Somebody else's screen waits here. What they have half typed is lost if you unlock.
unlock-old-keys = Keys no longer usable
unlock-old-key = { $count ->
    [one] { $name }: an earlier key, no longer usable. What was signed with it is kept and goes out: 1 record.
   *[other] { $name }: an earlier key, no longer usable. What was signed with it is kept and goes out: { $count } records.
  }

forgotten = PIN forgotten
forgotten-why = Nobody can bring a PIN back: it never left this phone. So you get a new key.
forgotten-ask = Ask your supervisor or planner for a new invitation.
forgotten-enrol = Enrol with it on this phone, and choose a new PIN.
forgotten-kept = Nothing is erased. What you have signed stays on this phone until it is sent, and goes out by itself.

pin-change = Change the PIN
pin-changing = Changing
pin-change-says = { $name }. What you have signed stays as it is. The PIN never leaves this phone, so on another phone yours stays the old one.
pin-old = Old PIN
pin-new = New PIN, six digits or more
pin-new-again = New PIN once more
pin-same = The new PIN is the old one. Choose another.
pin-new-differ = The two new PINs differ. Type them again.
pin-not-kept = The new PIN could not be kept. The old one still holds.
pin-not-changed = { $says } The PIN was not changed.
pin-changed = The PIN is changed. From now on only the new one opens your key on this phone.
pin-changed-badge = The PIN is changed. From now on only the new one and your badge open your key on this phone.
pin-done = Done
pin-whose = Go back and choose your name first.

badge = Badge
badge-to = Badge
badge-since = Your badge opens your key on this phone, since { $date }.
badge-none-here = No badge opens your key on this phone yet. Your shop prints badges; write your name on one and add it here.
badge-possession = Whoever holds the badge and this phone can unlock it. Wear it, and never leave it with the phone.
badge-still-pin = A sign-off asks for your PIN all the same.
badge-lost = Badge lost? Take it off here, on every phone where you added it.
badge-scan = Scan a badge
badge-another = Scan another badge
badge-take-off = Take it off
badge-leave = Leave it as it is
badge-add = Add
badge-ask-pin = { $name }: type your PIN once, and this badge opens your key on this phone.
badge-added = Your badge is added. Your PIN works as before.
badge-taken-off = The badge is taken off. On this phone it opens nothing any more; your PIN still does.
badge-not-kept = The badge could not be kept: this phone's storage is full or out of order. Make room, then try again.
badge-is-none = This code is not a badge's. Hold the badge inside the frame.
badge-opens-nothing = This badge opens no key on this phone. It was never added here, or it was taken off. Go back and unlock with your PIN, then add it under 'Badge'.
badge-of-another = This badge opens the key of { $name } already. Take a badge of your own.

enrol = Enrol this phone
enrol-says = Scan or type the invitation you were given, and choose a PIN of six digits or more. The PIN stays on this phone: the server never learns it.
enrol-scan = Scan the invitation
enrol-scan-another = Scan another invitation
enrol-stop-scanning = Type it instead
enrol-no-invitation = This code is not an invitation's. An invitation has twelve symbols in four groups; a tag or a badge is none.
enrol-elsewhere = This invitation names the server { $host }, and this app is of { $here }. If it is not known here, open the address of the other.
enrol-invitation = Invitation
enrol-do = Enrol this phone
enrol-busy = Making your key
enrol-needs-network = { $says } The first time needs a network; afterwards none is needed.
enrol-not-kept = The key could not be kept on this phone. Ask for a new invitation, and try again.

## Unsent

unsent = Unsent
unsent-none = Everything recorded on this phone is on the server.
unsent-wait = { $count ->
    [one] waits on this phone
   *[other] wait on this phone
  }
unsent-records = Records
unsent-photos = Photos
unsent-oldest = Oldest
unsent-progress = Sent so far
unsent-gone = { $gone } of { $whole } sent
unsent-trouble = { $says } Everything is saved on this phone and goes out by itself.
unsent-heard = Server heard { $time }.
unsent-not-heard = Server not heard yet.
unsent-send = Send now
unsent-sending = Sending
unsent-restored = The server was restored from a backup; this phone noticed on { $time }. What it had made was put back to be sent: { $records ->
    [one] 1 record
   *[other] { $records } records
  } and { $photos ->
    [one] 1 photo
   *[other] { $photos } photos
  }.
unsent-line = { $type } at { $place }
unsent-title-unreadable = Not believed by the server
unsent-says-unreadable = They stay here and are tried again every ten minutes. Tell your supervisor.
unsent-title-refused = Not taken in
unsent-says-refused = Not counted, here or on the server. The server keeps them; a supervisor sees them and the reason.
unsent-title-missing = Not on the server any more
unsent-says-missing = Made on other phones, and lost when the server was restored. Not counted until they are there again: their own phones send them, and the file here holds them as well.
unsent-title-photos-refused = Photos the server would not have
unsent-says-photos-refused = They are kept here, and tried again every ten minutes.
unsent-title-photos-not-shown = Photos that cannot be shown
unsent-says-photos-not-shown = The server has them as they are.
unsent-room = Room on this phone
unsent-room-left = Before storage gets short there is room for about { $photos } more photos, or { $records } records.
unsent-room-unknown = This browser does not tell how much room there is. A photo takes about half a megabyte.
unsent-no-room = This phone has no room for another photo.
unsent-short = { $count ->
    [one] This phone has room for about 1 more photo.
   *[other] This phone has room for about { $count } more photos.
  }
unsent-make-room = Photos that are on the server and in its backup are let go of by themselves; what is unsent never is. So send, or save it to a file, and free room on the phone.
unsent-kept = This browser has promised to keep what is here.
unsent-not-kept = This browser has not promised to keep the data. Install the app, and send often.

file-busy = Saving
file-none = No file was made. { $says }
file-made = { $records ->
    [one] 1 record
   *[other] { $records } records
  } and { $photos ->
    [one] 1 photo
   *[other] { $photos } photos
  } are in the file. Carry it to the office: the server takes it in there. Everything stays on this phone, and still goes out by itself.
file-share = Share the file

## Weld pass

weld-layer = Layer
weld-welder = Welder
weld-welder-other = Another welder
weld-who = Who welded this pass?
weld-procedure = Procedure
weld-procedure-card = Procedure { $id }
weld-procedure-other = Another procedure
weld-procedure-line = { $process }, positions { $positions }
weld-procedure-decides = The written procedure and the code edition in force decide. Welding is for qualified people under the shop's rules.
weld-process-revision = { $process }, revision { $revision }
weld-which-procedure = Which procedure?
weld-positions = Positions
weld-thickness = Thickness
weld-heat-input = Heat input
weld-fillers = Filler
weld-no-range = no range
weld-read = read: { $value }
weld-sign-in = inside
weld-sign-out = outside
weld-sign-none = no number
weld-said = { $value }: { $sign }
weld-stamp = Stamp
weld-lot = Filler lot
weld-log = Log the pass
weld-missing = Still to give: { $what }.
weld-fault = { $value }: { $fault }
weld-photo = Photo of the finished pass
weld-photo-short = Photo of the pass
weld-logged = Saved on this phone: { $layer } pass, { $name }, stamp { $stamp }.
weld-another = Log another pass
weld-check-open = Spot check: amps, volts, travel
weld-check = Spot check
weld-check-by = Spot check by { $procedure }
weld-check-next = Next
weld-check-done = Done
weld-energy = Arc energy
weld-energy-bare = without efficiency
weld-part = Part of the joint, position
weld-from = From
weld-to = To
weld-position = Position
weld-qualified = Qualified: { $process }, { $test }, any thickness, until { $until }
weld-qualified-to = Qualified: { $process }, { $test }, to { $most } in, until { $until }
weld-not-qualified = Not qualified for this pass: { $name }: { $reason }.
weld-not-qualified-next = The pass can be logged; it is flagged, and a supervisor sees it.
weld-lapses-soon = { $count ->
    [0] { $name }: the qualification for { $process } lapses today.
    [one] { $name }: the qualification for { $process } lapses tomorrow, { $lapses }, unless a pass by it is logged or shown on paper.
   *[other] { $name }: the qualification for { $process } lapses on { $lapses }, in { $count } days, unless a pass by it is logged or shown on paper.
}

weld-value-preheat = preheat
weld-value-interpass = interpass
weld-value-volts = volts
weld-value-amps = amps
weld-value-travel = travel
weld-value-arc-energy = arc energy

position-f = flat
position-h = horizontal
position-v = vertical
position-o = overhead

weld-test-plate-1g = 1G plate
weld-test-plate-2g = 2G plate
weld-test-plate-3g = 3G plate
weld-test-plate-4g = 4G plate
weld-test-plate-3g-4g = 3G+4G plate
weld-test-plate-2g-3g-4g = 2G+3G+4G plate
weld-test-pipe-1g = 1G pipe
weld-test-pipe-2g = 2G pipe
weld-test-pipe-5g = 5G pipe
weld-test-pipe-6g = 6G pipe
weld-test-pipe-2g-5g = 2G+5G pipe

## The office: plans

office-drop = Choose a file, or drop it here.
office-offline = { $says } The office needs the server; what was recorded is safe.
office-faults = { $count ->
    [one] { $name } has 1 fault. Nothing was taken in.
   *[other] { $name } has { $count } faults. Nothing was taken in.
  }
plans = Plans
plans-none = No plan is published yet. Take the template, fill it in, and bring it here.
plans-plan = Plan
plans-revision = Revision
plans-jobs = Jobs judged by it
plans-out = Take it out
plans-compare = compare with the one before
plans-import = A plan as a workbook (XLSX) or YAML
plans-template = A workbook to begin with
plans-reading = Reading the file
plans-sound = { $title }: { $steps } steps, { $items } items, no faults. A published revision never changes; a job keeps the one it has until it is moved.
plans-publish = Publish it
plans-same = Nothing differs.
plans-place = Where
plans-field = What
plans-itself = the plan itself
plans-new = new
plans-gone = gone
plans-of-revision = Revision { $revision }
plans-changed = { $count ->
    [one] 1 change, not published
   *[other] { $count } changes, not published
  }
plans-nothing-changed = Nothing is changed
plans-publish-next = Publish as the next revision
plans-figures-of = Limits for the figures of job
plans-outline = Steps and items
plans-up = Move up
plans-down = Move down
plans-add-item = Add an item
plans-take-out = Take it out
plans-new-item = New item
plans-no-limit = recorded, no limit
plans-lines = Points, in order: 'maker sign welder', 'QC H not maker', 'AI W'. Not before: 'plate_cut, receipt of joins', 'earlier of job'. Stations of an item: 'clock 4', 'numbered 3', 'names left 0; left 90', 'least 10 hole'.
plans-add-step = Add a step
plans-new-step = New step
plans-not-recorder = Nobody decides about a finding they recorded, or welded, themselves

plan-field-name = Name
plan-field-code = Code
plan-field-kind = Kind
plan-field-uom = Unit of measure
plan-field-where = Where
plan-field-lower = Lower limit
plan-field-upper = Upper limit
plan-field-nominal = Nominal
plan-field-tolerance = Tolerance to both sides
plan-field-plus = Plus
plan-field-minus = Minus
plan-field-formula = Worked out as
plan-field-only-if = Asked only if
plan-field-thickness = Thickness of weld metal
plan-field-binds = Binds by
plan-field-rule = Rule
plan-field-gauge = Kind of gauge
plan-field-photo = Photo
plan-field-place = Rounded to
plan-field-source = Source
plan-field-note = Note
plan-field-number = Number
plan-field-stage = Stage
plan-field-kinds = Kinds of piece, one a line
plan-field-cautions = Cautions, one a line
plan-field-points = Who signs, one a line
plan-field-not-before = Not before, one a line
plan-field-stations = Stations

## The office: tags

tags-title = Tags of job { $job }
tags-off = Tags that are off
tags-off-none = { $back ->
    [0] No tag is off its piece.
    [one] No tag is off its piece. 1 was off and is back on.
   *[other] No tag is off its piece. { $back } were off and are back on.
  }
tags-off-count = { $count ->
    [one] 1 tag is not back on its piece.
   *[other] { $count } tags are not back on their pieces.
  }
tags-off-back = { $count ->
    [0] None is back on yet.
    [one] 1 is back on.
   *[other] { $count } are back on.
  }
tags-off-heat = Off for heat, { $count }: { $marks }
tags-off-blast = Off for blasting, { $count }: { $marks }
tags-off-other = Off, no reason given, { $count }: { $marks }
tags-pieces = For which pieces
tags-new = New: { $count }
tags-new-means = Pieces whose tag nobody has put on yet. Whether a label was printed before is not known here.
tags-all = All of the job: { $count }
tags-stage = Those of a stage: { $count }
tags-which-stage = Stage
tags-ticked = Those ticked in the list: { $count }
tags-labels = Labels
tags-print-on = Print on
tags-sheet = { $paper }, { $columns } × { $rows } of { $width } × { $height } mm
tags-single = one a page, { $width } × { $height } mm
tags-single-inch = one a page, { $width } × { $height } in
tags-start = First label to print, 1 to { $most }
tags-start-wrong = This sheet has labels 1 to { $most }. Give the number of the first one that is still there.
tags-picture = The sheet; printing begins at label { $start }
tags-cuts = Marks to cut by, for plain paper
tags-make-pdf = Make the PDF
tags-made-pdf = { $count ->
    [one] 1 tag on 1 page.
   *[other] { $count } tags, { $pages ->
        [one] 1 page
       *[other] { $pages } pages
      }.
  }
tags-none-chosen = No piece is chosen.
tags-true-size = Print at true size (100 %), not fitted to the page: a label that is made smaller is harder to scan.
tags-board = Board of the job (PNG)
tags-stickers = Stickers of all gauges (PDF)
tags-steel = Steel tags, marked by a laser
tags-steel-means = For stainless tags on wire. The drawings are plain paths in true size: black is marked, red is cut.
tags-plate = Plate
tags-plate-size = { $width } × { $height } mm, hole { $hole } mm
tags-make-svg = Make the SVGs
tags-made-svg = { $count ->
    [one] 1 file in a ZIP.
   *[other] { $count } files in a ZIP.
  }
tags-list = { $count ->
    [one] 1 piece
   *[other] { $count } pieces
  }
tags-find = Find a mark, a kind or a code
tags-tick-all = Tick all that are found: { $count }
tags-mark = Piece
tags-code = Code
tags-where = Where the tag is
tags-no-code = no code
tags-former = out of use: { $codes }
tags-replace = Replace the code
tags-replace-of = Replace the code of { $mark }
tags-replace-means = { $code } goes out of use for good, and a scan of it says so. The piece gets a new code, whose tag has to be printed and put on. If only the label is spoilt, print it again: the code stays.
tags-replace-why = Why: lost, stolen, on the wrong piece
tags-replace-now = Take { $code } out of use

## The office: jobs

work-board = Jobs, stage by stage

board-flagged = flagged
board-blocked = blocked
board-complete = to sign
board-open = open
board-released = released

verdict-not-in-the-plan = not in the plan
signing-not-in-the-plan = not in the plan

jobs = Jobs
jobs-ways = What can be done
jobs-new = New job
jobs-shown = Jobs shown
jobs-all = All open jobs
jobs-waits-for = Waits for { $party }: { $count }
jobs-none-open = No job is open. A planner opens one from a plan and a list of its pieces.
jobs-none-wait = No job waits for { $party }.
jobs-by-plan = Plan { $plan }
jobs-job = Job
jobs-pieces-plan = { $count ->
    [one] 1 piece
   *[other] { $count } pieces
  }, plan { $plan } revision { $revision }
jobs-nothing-asked = nothing asked
jobs-list-title = { $title }: { $count }
jobs-piece = Piece
jobs-step = Step
jobs-party = Waits for
jobs-since = Since
jobs-more = { $count ->
    [one] and 1 more
   *[other] and { $count } more
  }
jobs-waits = Waits for a signature
jobs-no-waits = Nothing waits for a signature.
jobs-blocked = Blocked by a signature elsewhere
jobs-no-blocked = Nothing is blocked by a signature elsewhere.
jobs-let-go = Who can release it
jobs-let-go-by = { $party }: { $mark }, { $number } { $step }
jobs-reports = Reports asked for
jobs-no-reports = No report is out.
jobs-report = Report
jobs-asked-on = Asked for
jobs-overdue = { $days ->
    [one] longer than 1 day
   *[other] longer than { $days } days
  }
jobs-reports-in = { $count ->
    [one] 1 report is in.
   *[other] { $count } reports are in.
  }
jobs-closed = Closed jobs
jobs-plan-named = { $code } revision { $revision }: { $title }
jobs-figure-of = { $name }, { $what }, { $uom }
jobs-was = (was { $value })

new-job = A new job
new-job-no-plan = No plan is published yet. A job needs one: bring in a plan first.
new-job-number = Job number
new-job-title = Title
new-job-plan = Plan
new-job-figures = Figures
new-job-take-figures = Begin with the figures of
new-job-take-none = no other job
new-job-drawings = Drawings
new-job-drawings-how = Sheet and revision, one a line: 1 B
new-job-typed = What is typed
new-job-check = Check it
new-job-open = Open the job
new-job-sending = Sending
new-job-working = The server is reading it

found-stale = Something was changed since. Check it again.
found-sound = { $count ->
    [one] 1 piece, no faults.
   *[other] { $count } pieces, no faults.
  } It can be opened.
found-advice = { $count ->
    [one] 1 thing to look at. It stops nothing.
   *[other] { $count } things to look at. They stop nothing.
  }
found-pieces = { $count ->
    [one] The piece as it was read
   *[other] The { $count } pieces as they were read
  }

piece-list = Pieces
piece-list-file = A list of the pieces (XLSX or CSV)
piece-list-template = An empty list for this plan
piece-list-from = The pieces come from { $name }.
piece-list-type-instead = Type the pieces instead
piece-list-typed = Or type them, a row a piece; several marks with commas between
piece-list-cell = { $column }, row { $row }
piece-list-mark = Mark
piece-list-kind = Kind
piece-list-name = Name
piece-list-part-of = Part of
piece-list-joins = Joins
piece-list-figures = Figures
piece-list-sheet = Sheet
piece-list-place = Place of the tag
piece-list-more = More

job-page-closed = closed
job-page-tags = Print tags
job-page-floor = The job as on the floor
job-page-close = Close the job
job-page-reopen = Open the job again
job-page-close-means = Phones do not carry a closed job any more. Its records stay, and it can be opened again.
job-page-close-now = Close job { $job }
job-page-judged-by = What it is judged by
job-page-plan = Plan { $code } revision { $revision }
job-page-drawings = drawings { $drawings }
job-page-figures = { $count ->
    [one] 1 figure
   *[other] { $count } figures
  }
job-page-pieces = Pieces: { $count }
job-page-find = Find by mark, kind or name
job-page-take-out = The list as a workbook
job-page-material = material
job-page-remade = made again as { $mark }
job-page-remake = Make it again
job-page-remade-as = The new piece is { $mark }. Print its tag.
job-page-joints-moved = It is joined now by { $marks }.
job-page-joints-left = Records are there already for { $marks }: what is joined stays as it was made. Have it scrapped and made again as well.
job-page-add = Add pieces from a list (XLSX or CSV)
job-page-added = { $count ->
    [one] 1 piece was added. Print its tag.
   *[other] { $count } pieces were added. Print their tags.
  }
job-page-changes = Changes of plan, figures and drawings
job-page-change = { $number }. Plan { $plan }.

job-change = Change plan, figures or drawings
job-change-means = From then on job { $job } is judged by what stands here. Nothing is changed before you have seen what it undoes.
job-change-plan = Plan revision
job-change-look = See what it would undo
job-change-working = Working it out
job-change-nothing = Nothing that was recorded or signed is touched.
job-change-counts = { $releases ->
    [one] 1 release is lost
   *[other] { $releases } releases are lost
  }; { $records ->
    [one] 1 record no longer counts
   *[other] { $records } records no longer count
  }, { $verdicts } with another verdict; { $steps ->
    [one] 1 step is asked again.
   *[other] { $steps } steps are asked again.
  }
job-change-releases = Releases lost
job-change-signed-by = Signed by
job-change-why = After the change
job-change-not-valid = not valid: { $reason }
job-change-verdicts = Records that no longer count
job-change-record = Recorded
job-change-before-after = Before and after
job-change-same = { $verdict } by both; to be recorded again
job-change-turns = { $before } → { $after }
job-change-again = Steps asked again
job-change-reason = Why, and by whose word
job-change-make = Change job { $job }

trace = Material trace
trace-number = Heat or lot number
trace-find = Find it
trace-how = Blanks and capitals do not matter. What was lined out is shown as well.
trace-looking = Looking
trace-none = No record names { $heat }.
trace-found = { $count ->
    [one] { $heat }: 1 place
   *[other] { $heat }: { $count } places
  }
trace-records = { $count ->
    [one] 1 record
   *[other] { $count } records, the newest
  }
trace-into = It went into
trace-part-of = is part of it
trace-joined-by = joins it
trace-in-piece = Numbers in { $mark } of job { $job }
trace-nothing-in = No heat or lot number is recorded for this piece or its parts.
trace-itself = this piece
trace-a-part = a part of it
trace-joined = joined by it
trace-a-joint = a joint of it
trace-filler = the filler it was welded with
trace-welded-with = welded with it
trace-another = Look for another number

## The weld map: a drawing with the pieces of a job pinned on it

map-title = Weld map of job { $job }
map-open = Weld map
map-none = No drawing of job { $job } is on this phone. The office puts it in; it comes while there is a network.
map-sheets = Sheets
map-sheet = Sheet { $sheet }
map-revision = revision { $revision }
map-drawing = Sheet { $sheet }, { $title }
map-not-here = The picture of this sheet is not on this phone yet. Open the map once while there is a network, and it stays. Until then, choose from the list.
map-try-again = Try again
map-smaller = Smaller
map-larger = Larger
map-crowded = { $count ->
    [one] 1 pin lies too close to another to be hit. Make the drawing larger, or choose from the list.
   *[other] { $count } pins lie too close to others to be hit. Make the drawing larger, or choose from the list.
  }
map-pinned = { $count ->
    [one] 1 piece pinned on it
   *[other] { $count } pieces pinned on it
  }

## The office: people, welding procedures, gauges

due-overdue = overdue
due-due-soon = due soon
due-in-date = in date
due-no-day = no day known

office = Office
office-jobs-means = Stage by stage: what waits for whom, and what is blocked.
office-new-job-means = From a plan and a list of its pieces.
office-plans-means = What is inspected, in which order, by which limits.
office-people-means = Roles, phones, invitations, and the welders' qualifications.
office-procedures-means = The ranges that weld passes are held against.
office-gauges-means = Certificates, what is due, and what a doubtful gauge has touched.
office-trends-means = How values run one after another, whose they are, and whether the tolerance is held.
office-tags-means = The tags of a job are printed from its page.
office-keep = Keep it
office-leave = Leave it
office-kept = { $what } is kept.
office-choose = choose
office-none = none
office-needed = { $label } *
office-needed-means = Fields with * have to be filled in.

gauges = Gauges
gauges-none = No gauge is kept yet. Add the first one with what its certificate says.
gauges-count = { $overdue ->
    [0] No gauge is overdue.
    [one] 1 gauge is overdue.
   *[other] { $overdue } gauges are overdue.
  } { $soon ->
    [0] None is due within 30 days.
    [one] 1 is due within 30 days.
   *[other] { $soon } are due within 30 days.
  }
gauges-add = Add a gauge
gauges-gauge = Gauge
gauges-u = U, k = 2
gauges-u-unknown = not known
gauges-certificate = Certificate
gauges-calibrated = Calibrated
gauges-due = Due
gauges-stands = How it stands
gauges-days = { $count ->
    [0] today
    [one] in 1 day
   *[other] in { $count } days
  }
gauges-days-over = { $count ->
    [one] by 1 day
   *[other] by { $count } days
  }
gauges-renew = New certificate
gauges-renew-of = New certificate of { $id }
gauges-doubt = Dropped or off
gauges-doubt-of = Dropped or off: { $id }
gauges-new = A new gauge
gauges-field-id = Number on the gauge
gauges-field-kind = Kind, as plans name it
gauges-field-name = Name
gauges-field-uom = Unit of measure
gauges-field-uncertainty = Expanded uncertainty U, k = 2
gauges-field-certificate = Number of the certificate
gauges-field-calibrated = Calibrated on
gauges-field-due = Last day of use
gauges-there = There is a gauge { $id } already. Renew its certificate in the list instead.
gauges-judged-anew = Readings with this gauge are judged anew by the U and the last day that stand here.
gauge-doubt = Gauge { $id }: which readings it touches
gauge-doubt-how = Where it was dropped, give that day. Where it was found out of tolerance, give the last day on which it was known to be good.
gauge-doubt-since = In doubt since
gauge-doubt-find = List the readings
gauge-doubt-count = { $count ->
    [0] No reading with { $id } since { $day }.
    [one] 1 reading with { $id } since { $day }.
   *[other] { $count } readings with { $id } since { $day }.
  }
gauge-doubt-decides = Nothing is judged anew by this list. The supervisor decides about each reading: open it, and measure again or write a note there.
gauge-doubt-shown = Only the newest { $count } are shown. Choose a later day, then the days before it.
gauge-doubt-item = Item
gauge-doubt-station = Station
gauge-doubt-value = Value
gauge-doubt-by = By
gauge-doubt-when = When
gauge-doubt-verdict = Verdict

procedures = Welding procedures
procedures-none = No welding procedure is kept yet. Add what the shop's written procedures say.
procedures-decide = The written procedure and the code edition in force decide. What stands here only holds logged passes against them.
procedures-add = Add a procedure
procedures-procedure = Procedure
procedures-ranges = Ranges
procedures-state = In use
procedures-in-use = in use
procedures-withdrawn = withdrawn since { $day }
procedures-will-go = in use until it is withdrawn on { $day }
procedures-revision = revision { $revision }
procedures-range = { $name }: { $range }
procedures-replace = New revision
procedures-replace-of = New revision of { $id }
procedures-withdraw = Withdraw
procedures-withdraw-of = Withdraw { $id }
procedures-withdraw-on = Withdrawn from this day on
procedures-withdraw-means = Passes welded before that day keep their verdict. Later ones by { $id } are not judged.
procedures-back = Back into use
procedures-back-of = Back into use: { $id }
procedures-new = A new procedure
procedures-there = There is a procedure { $id } already. Make a new revision of it in the list instead.
procedures-judged-anew = A new revision under the same number judges the passes already logged by it as well. Where those are to stay as they are, add it under a number of its own and withdraw the old one.
procedure-field-id = Number
procedure-field-revision = Revision
procedure-field-name = Name
procedure-field-process = Process
procedure-field-positions = Positions
procedure-field-thickness-from = Thickness from, in
procedure-field-thickness-to = Thickness to, in
procedure-field-preheat-min = Preheat at least, °F
procedure-field-interpass-max = Interpass at most, °F
procedure-field-volts-from = Volts from
procedure-field-volts-to = Volts to
procedure-field-amps-from = Amps from
procedure-field-amps-to = Amps to
procedure-field-travel-from = Travel from, in/min
procedure-field-travel-to = Travel to, in/min
procedure-field-heat-input-max = Heat input at most, kJ/in
procedure-field-fillers = Fillers, one a line
procedure-field-note = Note
procedure-field-source = Source

people = People
people-add = Engage somebody
people-person = Person
people-roles = Roles
people-stamp = Stamp
people-phones = Phones
people-no-role = no role
people-no-phone = none enrolled
people-phone-heard = heard { $time }
people-phone-never = enrolled, not heard yet
people-phone-waiting = { $count ->
    [one] 1 record waits there
   *[other] { $count } records wait there
  }
people-phone-shut = shut out
people-change = Change
people-change-of = Change { $name }
people-invite = Invite
people-invite-of = Invite { $name }
people-invited = Invitation for { $name }
people-invited-how = Shown once. { $name } scans it with the phone, or types the code at { $address }. It can be used until { $until }.
people-invited-symbol = The invitation to scan
people-new = Somebody new
people-field-id = Short name, stays for good
people-field-name = Name
people-field-roles = Roles
people-field-stamp = Stamp, as struck beside welds
people-field-commission = Commission number
people-field-stands-in-for = Stands in for
people-supervisor-only = Only a supervisor gives the roles supervisor, engineer, authorized inspector and customer, or changes who holds one.
people-leaves = Who leaves keeps no role. What they recorded and signed stays.
people-there = There is somebody called { $id } here already. Change them in the list instead.
people-inspectors = Authorized inspectors
people-inspectors-none = No authorized inspector is engaged.
people-no-commission = not entered
people-nobody = nobody

qualified = Qualifications of makers
qualified-soon = Lapses within 30 days, or has lapsed
qualified-none-soon = No qualification lapses within 30 days.
qualified-none = No qualification is kept yet.
qualified-decides = Performance qualification is the shop's to show by its own records and the code edition in force.
qualified-who = Maker
qualified-process = Process
qualified-last = Last proof
qualified-lapses = Lapses
qualified-lapsed = lapsed
qualified-lapses-soon = lapses soon
qualified-holds = holds
qualified-held = Tests
qualified-test = Test
qualified-coupon = Coupon, in
qualified-of-coupon = { $coupon }, { $layers ->
    [one] 1 layer
   *[other] { $layers } layers
  }
qualified-of-pipe = { $coupon }, { $od } outside, { $layers ->
    [one] 1 layer
   *[other] { $layers } layers
  }
qualified-tested = Tested
qualified-continued = Continued
qualified-add = Add a qualification
qualified-new = A new qualification
qualified-renew = Continued
qualified-renew-of = Continued: { $id } of { $name }
qualified-there = There is a qualification { $id } already. Put its proof into the list instead.
qualified-field-id = Number
qualified-field-person = Maker
qualified-field-process = Process
qualified-field-test = Test and position
qualified-field-coupon = Thickness of the coupon, in
qualified-field-layers = Layers welded
qualified-field-coupon-od = Outside diameter of a pipe coupon, in
qualified-field-tested = Tested on
qualified-field-certificate = Number of the certificate
qualified-field-continued = Last proof on paper that he welded by it

## The office: drawings, with pieces pinned on them

drawing-open = Weld map
drawing-who = A planner or an engineer puts in sheets and pins.
drawing-none = This job has no drawing yet. Put one in below, then pin its pieces on it: phones show it as the weld map.
drawing-put-in = Put in a sheet, or its next revision
drawing-sheet = Sheet
drawing-revision = Revision
drawing-title = Title
drawing-file = Picture of the sheet (PNG, JPEG or PDF)
drawing-chosen = Chosen: { $name }
drawing-page = Page of the PDF
drawing-replaces = { $count ->
    [one] Sheet { $sheet } is there already. This picture takes its place, and its 1 pin stays where it is: look at it afterwards.
   *[other] Sheet { $sheet } is there already. This picture takes its place, and its { $count } pins stay where they are: look at them afterwards.
  }
drawing-put-in-now = Put it in
drawing-sending = Sending the picture
drawing-pins = Pins
drawing-piece = Piece
drawing-not-pinned = Not pinned yet
drawing-pinned = Pinned
drawing-pinned-now = { $piece } · pinned, not saved
drawing-taken-now = { $piece } · taken away, not saved
drawing-about = Sheet { $sheet } { $revision } · { $title }
drawing-choose = Choose a piece, then click its place on the sheet.
drawing-how = Click the place of { $mark } on the sheet. Or go to the sheet by Tab: the arrow keys move the pin by 1 %, with Shift by 0.1 %.
drawing-keys = By keyboard: the first arrow key puts the pin in the middle of the sheet.
drawing-at = { $x } % from the left, { $y } % from the top
drawing-take-away = Take this pin away
drawing-save = Save the pins
drawing-not-saved = Not saved yet.
drawing-saved = { $count ->
    [one] 1 pin, saved
   *[other] { $count } pins, saved
  }

## Trends: an item's values together, shares flagged, the study of a gauge

trend-why-no-values = there is no value
trend-why-one-value = there is a single value
trend-why-no-spread = all values are equal
trend-why-no-spread-in-the-baseline = the values at the start are all equal
trend-why-values-too-large = a value is too large to reckon with
trend-why-limits-on-different-sides = some values have a lower limit, others an upper one or both
trend-why-no-limits = the item has no limits
trend-why-tolerances-differ = the tolerances of the values are of different widths
trend-why-no-tolerance = the lower limit is not below the upper one

trend-capable-holds = It holds the tolerance.
trend-capable-cannot-hold = It spreads too wide for the tolerance, even if it sat in the middle.
trend-capable-off-centre = Expect values out of tolerance where it sits; moved to the middle, it would hold.
trend-capable-does-not-hold = Expect values out of tolerance as it runs now.
trend-capable-cannot-say = These values cannot tell whether it holds the tolerance.

study-tells-the-parts-apart = The gauge tells the parts apart.
study-tells-the-parts-apart-in-few-classes = The gauge tells the parts apart only roughly.
study-cannot-tell-the-parts-apart = The gauge cannot tell these parts apart.
study-takes-little-of-the-tolerance = Its own spread takes little of the tolerance.
study-takes-part-of-the-tolerance = Its own spread takes a good part of the tolerance: weigh what depends on it.
study-takes-too-much-of-the-tolerance = Its own spread takes too much of the tolerance: do not accept by it.
study-more-of-it-comes-from-the-operators = More of that spread comes from the operators than from the gauge: look at how they measure.
study-more-of-it-comes-from-the-gauge-itself = More of that spread comes from the gauge than from the operators.
study-the-operators-read-differently = The operators read differently by more than chance explains.
study-the-operators-differ-from-part-to-part = By how much the operators differ is another from part to part.

spread-part = parts
spread-operator = operators
spread-interaction = operator by part
spread-repeatability = repeatability (the gauge itself)
spread-reproducibility = reproducibility (operators in all)
spread-gauge = gauge and operators together
spread-total = total

trends = Trends
trends-means = How the values of an item run one after another, between its limits.
trends-offline = { $says } Trends need the server.
trends-loading = Fetching the values
trends-none = No value has come in yet. Items appear here with their first reading.
trends-search = Look for an item, step or plan
trends-order = Order
trends-order-look = Needs a look first
trends-order-newest = Newest value first
trends-order-step = By plan and step
trends-count = { $count ->
    [one] 1 item of { $all }
   *[other] { $count } items of { $all }
  }
trends-more = { $count ->
    [one] 1 more
   *[other] { $count } more
  }
trends-items = Items with values
trends-values = Values
trends-column-item = Item
trends-column-stands = How it stands
trends-column-step = Step
trends-column-plan = Plan
trends-column-values = Values
trends-column-newest = Newest came in
trends-column-piece = Piece
trends-column-value = Value
trends-column-limits = Limits
trends-column-who = Who
trends-column-gauge = Gauge
trends-column-measured = Measured
trends-column-mean = Mean
trends-column-sd = Spread (sd)
trends-column-flagged = Flagged
trends-column-interval = Between 0 and 100 %
trends-column-change = Change
trends-place = { $number } { $step } · plan { $plan }
trends-stands-drift = readings drift, flag open
trends-stands-out = { $out } out of tolerance among the newest { $count }
trends-printed-item = { $item }, { $number } { $step }, plan { $plan }
trends-printed-filter = { $filter }: { $value }
trends-printed-at = printed { $when }
trends-empty = No value is left by what was chosen. Choose less.

trends-says = What the values say
trends-no-control = No control limits: { $why }.
trends-no-rules = No run rule is chosen, so nothing is said about wandering.
trends-in-control = In control by the rules chosen, over { $count } values.
trends-in-control-few = No rule fires, but { $count ->
    [one] 1 value is
   *[other] { $count } values are
  } few to tell whether it is in control.
trends-out-of-control = Not in control: { $rule }, { $ends ->
    [at] at
   *[to] up to
  } { $place }{ $ago ->
    [0] , the newest value
    [one] , 1 value before the newest
   *[other] , { $ago } values before the newest
  }.{ $count ->
    [one] {""}
   *[other] {" "}{ $count } signals in all{ $pieces ->
        [many] {""}
       *[few] : { $pieces }
      }.
  }
trends-flag = { $state ->
    [open] Open flag, { $kind }, at { $place }, job { $job }: { $reason }.
    [decided] Flag, { $kind }, at { $place }, job { $job }: { $reason }. It is decided, not carried out yet.
   *[closed] Flag, { $kind }, at { $place }, job { $job }: { $reason }. It is closed.
  }
trends-flag-go = To the flag
trends-average-left = It wanders: no rule fires, but the moving average has left its limits.
trends-average-beyond = The moving average stands at { $level } { $uom }, beyond its limits.
trends-only-recorded = The values are recorded only; no limit judges them.
trends-verdicts = { $out ->
    [0] { $count ->
        [one] The 1 value is not out of tolerance.
       *[other] None of { $count } values is out of tolerance.
      }
    [one] { $count ->
        [one] The 1 value is out of tolerance.
       *[other] 1 of { $count } values is out of tolerance.
      }
   *[other] { $out } of { $count } values are out of tolerance.
  }{ $close ->
    [0] {""}
    [one] {" "}1 is too close to call.
   *[other] {" "}{ $close } are too close to call.
  }{ $unjudged ->
    [0] {""}
    [one] {" "}1 is unjudged.
   *[other] {" "}{ $unjudged } are unjudged.
  }
trends-capability = Cp { $cp } ({ $cpLow } to { $cpHigh }), Cpk { $value } ({ $low } to { $high }). { $means }
trends-capability-one = Cpk { $value } ({ $low } to { $high }) to the single limit. { $means }
trends-no-capability = Cp and Cpk cannot be given: { $why }.
trends-capability-was = While it is not in control, Cp and Cpk say what was, not what will be.
trends-figures = Mean { $mean } { $uom }, standard deviation { $sd }.
trends-small = { $count ->
    [one] 1 value is few
   *[other] { $count } values are few
  }: take all of this as a hint.
trends-unit-half = of half the tolerance
trends-placed = The limits are not the same for all values, so each is placed between its own: -1 at the lower, 1 at the upper.
trends-placed-one = The limits are not the same for all values, so its distance from its own limit stands for each.
trends-baseline = Centre and control limits are from the first { $count } of { $all } values.
trends-baseline-all = Centre and control limits are from all { $count } values.
trends-related = Neighbouring values are alike (correlation { $value }), so signals come more often than by chance.
trends-older = Only the newest { $most } of { $count } values are looked at; choices work within these.
trends-names-left-out = Makers are compared only for supervisors, planners and engineers.

trends-filter-job = Job
trends-filter-gauge = Gauge
trends-filter-maker = Who
trends-filter-procedure = Welding procedure
trends-filter-kind = Kind of piece
trends-filter-all = all
trends-filter-one = { $name } ({ $count })
trends-show = Values shown
trends-show-left = what is in force
trends-show-found = as found, before rework
trends-rules = { $count ->
    [0] Run rules: none
    [one] Run rules: 1
   *[other] Run rules: { $count }
  }
trends-rules-which = A point is marked where one of these is so
trends-rule-beyond-3 = The point is more than 3 sigma from the centre.
trends-rule-two-of-three-beyond-2 = Of three in a row, up to it, it and another are beyond 2 sigma on one side.
trends-rule-four-of-five-beyond-1 = Of five in a row, up to it, it and three others are beyond 1 sigma on one side.
trends-rule-eight-on-one-side = Eight in a row, up to it, are on one side of the centre.
trends-rule-nine-on-one-side = Nine in a row, up to it, are on one side of the centre.
trends-rule-six-rising-or-falling = Six in a row, up to it, rise or fall throughout.
trends-rule-fourteen-alternating = Fourteen in a row, up to it, go up and down by turns.
trends-rule-fifteen-within-1 = Fifteen in a row, up to it, are all within 1 sigma of the centre.
trends-rule-eight-outside-1 = Eight in a row, up to it, are all outside 1 sigma, on both sides.
trends-rule-drift = The average of the last readings drifts towards a limit, as with a tool that wears.
trends-run-beyond-3 = a point more than 3 sigma from the centre
trends-run-two-of-three-beyond-2 = two of three in a row beyond 2 sigma on one side
trends-run-four-of-five-beyond-1 = four of five in a row beyond 1 sigma on one side
trends-run-eight-on-one-side = eight in a row on one side of the centre
trends-run-nine-on-one-side = nine in a row on one side of the centre
trends-run-six-rising-or-falling = six in a row rising or falling throughout
trends-run-fourteen-alternating = fourteen in a row up and down by turns
trends-run-fifteen-within-1 = fifteen in a row within 1 sigma of the centre
trends-run-eight-outside-1 = eight in a row outside 1 sigma, on both sides
trends-run-drift = an average that drifts towards a limit
trends-watched = { $count ->
    [0] Nobody watches this item: no rule raises a flag.
   *[other] Watched: a flag is raised by { $rules }.
  }
trends-watch = Choose what raises a flag
trends-watched-by = A flag is raised where one of these is so
trends-watched-what = For everybody, at each reading that comes in. On an item in good order the drift alone warns falsely about once in 180 readings: watch what wears, not everything.
trends-weight = Weight of a new value in the average
trends-from = Centre and control limits from
trends-from-first = the first 100 values
trends-from-all = all values shown

trends-chart = Chart
trends-chart-read = Value by value ({ $uom })
trends-chart-placed = Value by value, between its own limits
trends-chart-label = { $count ->
    [one] Chart of 1 value
   *[other] Chart of { $count } values
  }
trends-chart-how = Move over a point or tap it, or go to the chart by Tab: arrow keys go from value to value, with Shift to the next that is marked; Enter opens its piece.
trends-as-read = As measured
trends-newest = Newest { $count }
trends-ranges = Moving range: distance from the value before
trends-line-control = control
trends-legend-limits = limits of the item
trends-legend-limits-are = limits of the item, { $limits }
trends-legend-centre = centre
trends-legend-control = control limits, 3 sigma
trends-line-centre = centre
trends-line-mean = mean
trends-line-limit = limit
trends-signal = a run rule fires
trends-signal-at = { $count ->
    [one] a run rule fires
   *[other] { $count } run rules fire
  }
trends-average = moving average, weight { $weight }, its limits dotted
trends-read = { $place } of { $count }: { $value } { $uom }, { $verdict }. { $mark }{ $station ->
    [none] {""}
   *[other] {" "}{ $station }
  }, job { $job }, { $when }.
trends-read-by = By { $name }.
trends-read-gauge = Gauge { $gauge }.
trends-read-marked = Marked: up to here, { $rule }.
trends-rows = The newest { $shown } of { $count }, as in the chart.

trends-from-where = Where they come from
trends-groups-how = The mean of each with its interval of 95 %; the upright line is the mean of all. Choose one to see it alone.
trends-all-maker = All of them by { $name }.
trends-all-gauge = All of them with gauge { $name }.
trends-all-procedure = All of them on pieces welded by { $name }.
trends-all-kind = Kind of piece of all of them: { $name }.
trends-no-groups = Nothing is known about maker, gauge, procedure or kind.
trends-by-maker = By whom
trends-by-gauge = By gauge
trends-by-procedure = By welding procedure
trends-by-kind = By kind of piece
trends-nobody = none named
trends-share = { $flagged } of { $n }
trends-share-interval = { $low } to { $high }
trends-few = few values

trends-stages = The same dimension, step by step
trends-stages-how = { $single ->
    [0] Values in force of the same piece and station.
    [one] Values in force of the same piece and station. 1 has a value at one step only and is left out.
   *[other] Values in force of the same piece and station. { $single } have a value at one step only and are left out.
  }
trends-stages-none = No piece has values at two of the steps yet.

trends-shares = Shares flagged
trends-shares-means = Which part of the values was out of tolerance, too close to call or unjudged when it was found. Those first whose interval lies highest: a large share of a few values may be chance.
trends-shares-none = No value came in within these days.
trends-days = In the last
trends-days-count = { $count ->
    [one] 1 day
   *[other] { $count } days
  }

trends-study = Study of a gauge
trends-study-means = Two or more people measure the same parts, each of them twice or more. What of the spread is the parts' own, and what comes from gauge and hand? Nothing of it is kept.
trends-study-text = Readings, copied from a spreadsheet
trends-study-example = part	operator	value
trends-study-file = Or a file with the columns part, operator, value
trends-study-chosen = Chosen: { $name }
trends-study-drop = Take it away
trends-study-tolerance = Tolerance: upper limit less lower (may lack)
trends-study-do = Work it out
trends-study-found = What it means
trends-study-size = { $parts } parts, { $operators } operators, { $trials } readings of each part by each.
trends-study-categories = { $count ->
    [0] No class of parts is told apart; 5 are wanted.
    [one] 1 class of parts is told apart; 5 are wanted.
   *[other] { $count } classes of parts are told apart; 5 are wanted.
  }
trends-study-categories-all = The gauge shows no spread of its own, so its classes cannot be counted.
trends-study-components = Where the spread comes from
trends-study-source = Source
trends-study-sd = Standard deviation
trends-study-contribution = % of the variance
trends-study-study = % of the spread
trends-study-tolerance-share = % of the tolerance
trends-study-anova = Analysis of variance
trends-study-pooled = Operators do not differ from part to part by more than chance, so this is counted as repeatability.
trends-study-squares = Sum of squares
trends-study-degrees = Degrees of freedom
trends-study-mean = Mean square
trends-study-f = F
trends-study-p = p
trends-study-limits = Below 10 % of the tolerance a gauge is held good, above 30 % too coarse: common practice. The shop's own rule comes first.
