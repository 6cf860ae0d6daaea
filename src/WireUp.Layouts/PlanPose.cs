namespace WireUp.Layouts;

/// <summary>A point of a track on paper and the way the track runs there.</summary>
/// <param name="At">The point on the centre line, in metres; x to the right, y upward.</param>
/// <param name="DirectionX">Horizontal part of the unit vector along the track.</param>
/// <param name="DirectionY">Vertical part of the unit vector along the track.</param>
public readonly record struct PlanPose(PlanPoint At, double DirectionX, double DirectionY)
{
    /// <summary>The same place looked at the other way round.</summary>
    public PlanPose Reversed => new(At, -DirectionX, -DirectionY);

    /// <summary>A point beside the track: positive is to the left of its direction, in metres.</summary>
    public PlanPoint Beside(double metresLeft) => new(At.X - (metresLeft * DirectionY), At.Y + (metresLeft * DirectionX));

    /// <summary>A point ahead along the direction; negative is behind, in metres.</summary>
    public PlanPoint Ahead(double metres) => new(At.X + (metres * DirectionX), At.Y + (metres * DirectionY));
}
