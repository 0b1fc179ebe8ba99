/** What a notice about accepted rows says, by its code. */
export const remarkTexts: Readonly<Record<string, string>> = {
  "part-maker-unknown":
    'No maker is named for these parts and none could be found by their numbers; they are kept under "Unknown maker".',
  "model-maker-unknown":
    'No maker is named for these models and none could be found by their designations; they are kept under "Unknown maker".',
  "quantity-presumed":
    "The list has no column that says how many pieces are taken; one was presumed for new lines.",
  "model-absent":
    "These rows name a part but no model; the part is kept without gear that takes it.",
  "position-absent":
    "These rows name a model but not where it is fitted; the model is kept, no fitted item is.",
  "position-from-model":
    "These rows do not say where the gear is fitted; the model's designation, numbered, stands for the position.",
  "items-numbered":
    "These rows stand for several items; each is kept as one, with a number after its position.",
};
