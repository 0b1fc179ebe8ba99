import { useState } from "react";
import { Label, Slider, SliderThumb, SliderTrack } from "react-aria-components";
import { chanceText } from "../../components/figures.ts";
import { NumberBox } from "../../components/number-box.tsx";
import { type TierName, TierSign } from "../../components/signs.tsx";

/** The slider's stops: even steps of caution, each about halving the chance of running short. */
const stops = [
  0.5, 0.6, 0.7, 0.75, 0.8, 0.85, 0.9, 0.92, 0.95, 0.96, 0.97, 0.98, 0.985, 0.99, 0.993, 0.995,
  0.997, 0.998, 0.999, 0.9995, 0.9999,
] as const;

const stopOf = (target: number): number => {
  let best = 0;
  stops.forEach((stop, index) => {
    if (
      Math.abs(Math.log(1 - stop) - Math.log(1 - target)) <
      Math.abs(Math.log(1 - (stops[best] ?? 0.5)) - Math.log(1 - target))
    )
      best = index;
  });
  return best;
};

/** How sure a tier must be: a slider over even steps of caution, and the exact number beside it. */
export function TargetField({
  tier,
  target,
  onChange,
}: {
  readonly tier: TierName;
  readonly target: number;
  readonly onChange: (target: number) => void;
}) {
  const [sliding, setSliding] = useState<number>();
  const shown = sliding === undefined ? target : (stops[sliding] ?? target);
  return (
    <div className="target-field">
      <Slider
        className="slider"
        minValue={0}
        maxValue={stops.length - 1}
        step={1}
        value={sliding ?? stopOf(target)}
        onChange={(stop) => setSliding(typeof stop === "number" ? stop : stop[0])}
        onChangeEnd={(stop) => {
          const index = typeof stop === "number" ? stop : (stop[0] ?? 0);
          setSliding(undefined);
          const chosen = stops[index];
          if (chosen !== undefined && index !== stopOf(target)) onChange(chosen);
        }}
      >
        <Label>
          <TierSign tier={tier} />
        </Label>
        <output className="target-words">short {chanceText(1 - shown)}</output>
        <SliderTrack className="slider-track">
          {({ state }) => (
            <>
              <svg className="slider-lane" width="100%" height="4" aria-hidden="true">
                <rect width="100%" height="4" className="bar-lane" />
                <rect width={`${state.getThumbPercent(0) * 100}%`} height="4" className="bar" />
              </svg>
              <SliderThumb className="slider-thumb" />
            </>
          )}
        </SliderTrack>
      </Slider>
      <NumberBox
        label={`Target, ${tier}`}
        value={shown}
        min={0.01}
        max={0.99999}
        decimals={6}
        onChange={onChange}
      />
    </div>
  );
}
