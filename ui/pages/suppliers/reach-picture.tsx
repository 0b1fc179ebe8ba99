import { useEffect, useMemo, useRef, useState } from "react";
import type { SuppliersAnswer } from "../../../api/contract/suppliers.contract.ts";
import { Drawing } from "../../charts/drawing.tsx";
import { layOutReach } from "../../charts/reach-steps.ts";
import { wholeText } from "../../components/figures.ts";
import { ScrollTable } from "../../components/scroll-table.tsx";

type Reach = SuppliersAnswer["curve"][number]["parts"];

/** A figure, with its bound where it is not proven. */
const reachText = ({ reached, status, upperBound }: Reach): string =>
  status === "optimal"
    ? wholeText(reached)
    : `${wholeText(reached)} (at most ${wholeText(upperBound)})`;

/** Gear covered whole by the best one, two, three ... suppliers, drawn and as a table. */
export function ReachPicture({ answer }: { readonly answer: SuppliersAnswer }) {
  const frame = useRef<HTMLDivElement>(null);
  const [width, setWidth] = useState(340);
  useEffect(() => {
    const box = frame.current;
    if (box === null) return;
    const watch = new ResizeObserver(([entry]) => {
      if (entry !== undefined) {
        setWidth(Math.min(760, Math.max(260, Math.floor(entry.contentRect.width))));
      }
    });
    watch.observe(box);
    return () => watch.disconnect();
  }, []);
  const scene = useMemo(
    () =>
      layOutReach({
        points: answer.curve.map(({ count, gearWhole }) => ({ count, ...gearWhole })),
        total: answer.gear.items,
        coverable: answer.gear.coverable,
        width,
        height: 280,
      }),
    [answer, width],
  );
  return (
    <figure className="reach">
      <div ref={frame}>
        <Drawing scene={scene} />
      </div>
      <figcaption className="said">
        Items all of whose parts the best so many suppliers offer between them. The strong foot of a
        bar would still be covered whichever one of them dropped out.
      </figcaption>
      <ScrollTable caption="The best suppliers together" captionHidden>
        <thead>
          <tr>
            <th scope="col" className="number">
              Best
            </th>
            <th scope="col" className="number">
              Items whole
            </th>
            <th scope="col" className="number">
              Without any one
            </th>
            <th scope="col" className="number">
              Items partly
            </th>
            <th scope="col" className="number">
              Parts
            </th>
            <th scope="col">For most items whole</th>
          </tr>
        </thead>
        <tbody>
          {answer.curve.map((point) => (
            <tr key={point.count}>
              <th scope="row" className="number">
                {point.count}
              </th>
              <td className="number">{reachText(point.gearWhole)}</td>
              <td className="number">{wholeText(point.gearWhole.withoutAnyOne)}</td>
              <td className="number">{reachText(point.gearPartly)}</td>
              <td className="number">{reachText(point.parts)}</td>
              <td className="wordy">
                {point.gearWhole.suppliers.map(({ name }) => name).join(", ")}
              </td>
            </tr>
          ))}
        </tbody>
      </ScrollTable>
    </figure>
  );
}
