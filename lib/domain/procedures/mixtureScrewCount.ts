import { cut, edge, from, gauge, leader, line, measured, middle, rect, type Stroke } from "./drawing";
import { MAKER, type Procedure } from "./procedure";

const turn: readonly Stroke[] = [
  { kind: "measure", d: "M196 40A44 18 0 1 1 190 28" },
  { kind: "head", d: "M186 22L196 29L186 33Z" },
];

export const MIXTURE_SCREW_COUNT: Procedure = {
  id: "mixture-screw-count",
  name: "Mixture screw, counted from its seat",
  measures: ["mixtureScrewTurns"],
  instrument: "The driver that fits the screw, with a mark on its handle",
  resolution: "An eighth of a turn",
  readings:
    "Counted in, then counted out again to where it stood: the two have to agree, else count once more.",
  steps: [
    "Mark the handle. Turn in slowly and count eighths until the screw just touches: that is how it was found.",
    "Stop at the first touch. Turn out again by the same count; look whether spring, washer and O-ring are there, in this order.",
    "Turns out = eighths ÷ 8. Each carburettor on its own, as found, before anything is turned for good.",
  ],
  kept: "On the setting sheet as turns out. It is half of the idle mixture that is computed with the pilot jet; the ride's corrections step it by an eighth.",
  cautions: [
    "Screwed in hard, the tip breaks off in its seat or widens it: two fingers, no grip. On some models the screw is sealed for emissions: local law and the maker's manual count.",
    MAKER,
  ],
  drawing: {
    title: "Mixture screw, counted from its seat",
    description:
      "A mixture screw in its body, cut lengthwise: head, spring, O-ring, tip in its seat. It is turned in until it touches, counted in eighths of a turn.",
    height: 212,
    strokes: [
      cut("M84 84H134V150L144 172H84Z", "M236 84H186V150L176 172H236Z"),
      edge("M142 56H178V74H168V150L160 176L152 150V74H142Z"),
      edge(line(150, 65, 170, 65)),
      edge("M138 78L182 84M138 88L182 94M138 98L182 104M138 108L182 114"),
      edge(rect(136, 118, 48, 8)),
      gauge(rect(154, 8, 12, 46)),
      ...turn,
      leader(line(186, 122, 252, 122), line(182, 96, 252, 96), line(160, 178, 160, 188)),
    ],
    labels: [
      from(256, 100, "spring"),
      from(256, 126, "O-ring"),
      middle(160, 202, "stop at the first touch"),
      measured(from(206, 40, "count eighths")),
      from(8, 130, "body"),
    ],
  },
};
