/** Shown with every kit and list, on screen and on paper. */
export const cautions: readonly string[] = [
  "This is not a statement of compliance: flag state, class, rally rules and insurer decide what must be carried.",
  "The maker's manual and parts list come first. Check every part number against them before buying.",
  "Safety gear is never thinned out because it shares parts. Expired counts as not aboard; an unknown date counts as expired.",
  "Gas, standing rigging, liferafts, EPIRBs, hydrostatic releases, lifejackets, extinguishers, injection and steering hydraulics belong to licensed or accredited people.",
  "A spare is not redundancy: time, tools and skill at sea count.",
  "The figure is the chance of not running short under the stated assumptions. It does not mean safe.",
];
