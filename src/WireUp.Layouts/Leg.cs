namespace WireUp.Layouts;

/// <summary>One side of a supply.</summary>
public enum Leg
{
    /// <summary>The side that feeds rail A.</summary>
    A,

    /// <summary>The side that feeds rail B.</summary>
    B,
}
