namespace WireUp.Layouts;

/// <summary>A point of the plan, in metres; x to the right, y upward.</summary>
/// <param name="X">Metres to the right.</param>
/// <param name="Y">Metres upward on the plan.</param>
public readonly record struct PlanPoint(double X, double Y);
