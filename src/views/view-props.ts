import type { Preferences } from "../state/preferences";
import type { CorrectionOffer } from "../state/use-corrections";
import type { KeptVisits } from "../state/use-kept-visits";
import type { Commands } from "../state/use-visit";
import type { Dispatch } from "../state/visit-reducer";
import type { PageState, Visit } from "../state/visit-state";

/** What every view is given: finished values to draw, and the two ways to change something. */
export type PageProps = {
  readonly state: PageState;
  readonly preferences: Preferences;
  readonly dispatch: Dispatch;
  readonly commands: Commands;
  /** Visits of this browser, and how the one on the page is kept. */
  readonly kept: KeptVisits;
  /** Corrections of a log with the same headings, offered for this one. */
  readonly corrections: CorrectionOffer;
};

/** For views that only make sense with a visit on the page. */
export type StoryProps = PageProps & { readonly visit: Visit };
