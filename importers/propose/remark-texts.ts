/** What a notice about accepted rows says, by its code. */
export const remarkTexts: Readonly<Record<string, string>> = {
  "part-maker-unknown":
    'No maker is named for these parts and none could be found by their numbers; they are kept under "Unknown maker".',
  "model-maker-unknown":
    'No maker is named for these models and none could be found by their designations; they are kept under "Unknown maker".',
  "quantity-presumed":
    "The list has no column that says how many pieces are taken; one was presumed for new lines.",
  "confidence-unstated":
    "These pairs do not say how sure it is that they interchange; they are taken to. Mark doubtful ones as unproven to keep them apart.",
  "order-named":
    "These rows have no order number; the supplier's name and the day of ordering stand for it.",
  "order-status-presumed":
    "The list does not say how far these orders have come; those with a day of ordering or delivery are taken as placed, others as planned.",
  "leg-longest-presumed":
    "These legs do not say their longest case; the expected days stand for it. Give the longest days too, so that the kit lasts.",
  "leg-ports-apart": "These legs do not leave from the port where the leg before them ends.",
  "days-from-legs": "The crossing was not known; its days are the sum of its legs.",
  "leg-days-differ":
    "The days of the legs do not add up to those of the crossing; both are kept as they stand.",
  "model-absent":
    "These rows name a part but no model; the part is kept without gear that takes it.",
  "position-absent":
    "These rows name a model but not where it is fitted; the model is kept, no fitted item is.",
  "position-from-model":
    "These rows do not say where the gear is fitted; the model's designation, numbered, stands for the position.",
  "items-numbered":
    "These rows stand for several items; each is kept as one, with a number after its position.",
};
