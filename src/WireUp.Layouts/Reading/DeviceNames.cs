namespace WireUp.Layouts.Reading;

/// <summary>
/// Names of supplies, boosters and districts. What could not be read keeps its name here, so that one mistake is not reported
/// again wherever the thing is mentioned.
/// </summary>
internal sealed class DeviceNames
{
    public HashSet<string> Supplies { get; } = new(StringComparer.Ordinal);

    public HashSet<string> Boosters { get; } = new(StringComparer.Ordinal);

    /// <summary>Each district with its booster, or null where that is not known.</summary>
    public Dictionary<string, string?> Districts { get; } = new(StringComparer.Ordinal);
}
