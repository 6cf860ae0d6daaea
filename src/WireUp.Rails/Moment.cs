namespace WireUp.Rails;

/// <summary>
/// A moment while a piece moves from one position to another, written <c>through&gt;diverging</c> wherever a position may stand.
/// What conducts at such a moment is in <see cref="Trackwork.Moments"/>.
/// </summary>
/// <param name="From">The position it leaves.</param>
/// <param name="To">The position it goes to.</param>
public readonly record struct Moment(string From, string To)
{
    private const char Sign = '>';

    /// <summary>Whether a position is such a moment.</summary>
    public static bool Is(string position) => position.Contains(Sign, StringComparison.Ordinal);

    /// <summary>The moment that a position tells of, or null where it is an ordinary position.</summary>
    public static Moment? Of(string position) =>
        position.IndexOf(Sign, StringComparison.Ordinal) is var at and >= 0 ? new(position[..at], position[(at + 1)..]) : null;

    /// <summary>As written in results: <c>through&gt;diverging</c>.</summary>
    public override string ToString() => $"{From}{Sign}{To}";
}
