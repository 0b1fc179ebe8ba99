/** Signs that say a state by shape and word, so that colour is never alone. The same on every page. */

export type TierName = "safety" | "passage" | "comfort";
export type EvidenceName = "measured" | "own history" | "assumed" | "scheduled";

const tierShape: Record<TierName, string> = {
  safety: "M8 1.5L15 14H1z",
  passage: "M8 1.5a6.5 6.5 0 1 1 0 13a6.5 6.5 0 1 1 0-13z",
  comfort: "M2 2h12v12H2z",
};

/** Triangle, disc or square with the tier's name. */
export function TierSign({ tier }: { readonly tier: TierName }) {
  return (
    <span className={`sign tier-${tier}`}>
      <svg viewBox="0 0 16 16" width="14" height="14" aria-hidden="true">
        <path d={tierShape[tier]} />
      </svg>
      {tier}
    </span>
  );
}

/** A full, half or empty disc with the evidence's name: the emptier, the less is known. */
export function EvidenceSign({ evidence }: { readonly evidence: EvidenceName }) {
  return (
    <span className={`sign evidence evidence-${evidence.replace(" ", "-")}`}>
      <svg viewBox="0 0 16 16" width="14" height="14" aria-hidden="true">
        {evidence === "scheduled" ? (
          <path className="full" d="M2 4h12v10H2zM4 1v3M12 1v3" />
        ) : (
          <>
            <circle cx="8" cy="8" r="6" className={evidence === "measured" ? "full" : "open"} />
            {evidence === "own history" && <path className="full" d="M8 2a6 6 0 0 0 0 12z" />}
          </>
        )}
      </svg>
      {evidence}
    </span>
  );
}
