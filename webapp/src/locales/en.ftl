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

tag-put-on = put on
tag-taken-off = taken off
tag-back-on = back on
tag-gone-inside = gone inside
tag-replaced = replaced

## Every screen: the bar on top, and what stands at the bottom

frame-my-work = My work
frame-job = Job { $job }
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
