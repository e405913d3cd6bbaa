/** The parts of the page that stand without figures: what follows once the first of them are shown. */
import './parts/build-up-section.ts';
import './parts/caution-list.ts';
import './parts/conflict-message.ts';
import './parts/drawing-in.ts';
import './parts/job-comparing.ts';
import './parts/paper-tools.ts';
import './parts/propose-panel.ts';
import './parts/revision-banner.ts';
import './parts/run-profile.ts';
import './parts/schedule-tables.ts';
import './parts/slot-brightness.ts';
import './parts/strip-sheet.ts';
import './parts/wall-comparison.ts';
import './parts/workshop-jobs.ts';
