namespace WireUp.Layouts.Reading;

/// <summary>The points of all buses, each with the district whose bus has it.</summary>
internal sealed class BusPoints
{
    private readonly Dictionary<string, string> _districtOf = new(StringComparer.Ordinal);

    /// <summary>Whether some run could not be read, so that a point nobody has may be in it.</summary>
    public bool IsPartial { get; set; }

    public IEnumerable<string> Names => _districtOf.Keys;

    public string? DistrictOf(string point) => _districtOf.GetValueOrDefault(point);

    public void Add(string point, string district) => _districtOf.TryAdd(point, district);
}
