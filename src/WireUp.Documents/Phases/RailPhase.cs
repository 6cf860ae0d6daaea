namespace WireUp.Documents.Phases;

/// <summary>Which leg of the wiring a rail belongs to.</summary>
internal enum RailPhase
{
    /// <summary>No feeder reaches it through metal that always conducts.</summary>
    Unfed,

    /// <summary>Leg A: rail A.</summary>
    A,

    /// <summary>Leg B: rail B.</summary>
    B,

    /// <summary>Legs A and B both reach it: a short.</summary>
    Both,

    /// <summary>No feeder of its own; a blade or contact joins it to one leg or the other as the points lie.</summary>
    Switched,
}
