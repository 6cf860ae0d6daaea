namespace WireUp.Circuits.Network.WhatIfs;

/// <summary>How a what-if ended.</summary>
internal enum WhatIfOutcome
{
    /// <summary>Everything that had a feed has it still.</summary>
    Solved,

    /// <summary>
    /// Something has no way to the source any more. The places that have one are answered, with the loads gone that lost theirs.
    /// </summary>
    CutsOff,

    /// <summary>
    /// This cannot be had by an update, only from a new model: an element without resistance is one unknown with its ends; parts
    /// that were separate have references of their own; or what is left of the way round is so much less conductive than what was
    /// opened that the digits do not suffice.
    /// </summary>
    NeedsNewModel,
}
