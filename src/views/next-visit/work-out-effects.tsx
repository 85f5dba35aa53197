import { useState } from "react";
import type { Advice } from "../../../shared/findings/advice";
import { NEXT_VISIT_WORDS } from "../../../shared/wording/story";
import type { Commands } from "../../state/use-visit";

type Props = { readonly advice: readonly Advice[]; readonly commands: Pick<Commands, "workOutEffects"> };

/** Asks the fitted model what each step would do here. Not done unasked: fitting takes some seconds of a phone's battery. */
export function WorkOutEffects({ advice, commands }: Props) {
  const [stage, setStage] = useState<"idle" | "running" | "none" | "failed">("idle");
  const isTold = advice.some(({ effect }) => effect !== null);
  if (!advice.some(({ step }) => step === "change" || step === "bring") || (isTold && stage !== "running")) return null;
  const ask = async () => {
    setStage("running");
    setStage((await commands.workOutEffects()) ? "none" : "failed");
  };
  return (
    <p className="work-out">
      <button type="button" disabled={stage === "running"} onClick={() => void ask()}>
        {NEXT_VISIT_WORDS.workOutEffects}
      </button>{" "}
      <span role="status" className="small">
        {stage === "idle" ? "" : NEXT_VISIT_WORDS.effects[stage]}
      </span>
    </p>
  );
}
