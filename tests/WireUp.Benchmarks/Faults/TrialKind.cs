namespace WireUp.Benchmarks.Faults;

/// <summary>A kind of trial: what is put into the railway and how it is looked for.</summary>
/// <param name="Name">A word for the command line and the file of its records.</param>
/// <param name="Words">What the table of figures calls it.</param>
/// <param name="Seed">Added to the number of a trial it is the seed of all that is drawn in it.</param>
/// <param name="Count">Trials of a whole run.</param>
/// <param name="Readings">Readings of each trial beyond what somebody complains of.</param>
/// <param name="Among">Among how many of the ranking the injected part has to be.</param>
internal sealed record TrialKind(string Name, string Words, int Seed, int Count, int Readings, int Among)
{
    internal static readonly TrialKind Single = new("single", "one fault, sound parts as the layout says", 100_000, 1000, 4, 3);

    internal static readonly TrialKind Varying = new("varying", "one fault, sound parts vary", 120_000, 200, 4, 3) { Varies = true };

    internal static readonly TrialKind Pair = new("pair", "two faults", 130_000, 100, 8, 5) { IsPair = true };

    internal static readonly TrialKind Touching = new("touching", "conductors that touch, wires exchanged, boosters weak", 150_000, 200, 4, 3) { IsTouching = true };

    internal static readonly TrialKind Mixed = new("mixed", "one fault of any kind", 160_000, 1000, 4, 3) { IsMixed = true };

    /// <summary>Every kind, in the order of the table.</summary>
    internal static readonly TrialKind[] All = [Mixed, Touching, Single, Varying, Pair];

    /// <summary>Whether two parts at a time are faulty.</summary>
    internal bool IsPair { get; init; }

    /// <summary>Whether each sound part has a resistance drawn about its own.</summary>
    internal bool Varies { get; init; }

    /// <summary>Whether it is of those that make breakers trip or boosters weak.</summary>
    internal bool IsTouching { get; init; }

    /// <summary>Whether it may be of any kind, each as often as the table of rates says.</summary>
    internal bool IsMixed { get; init; }

    /// <summary>Whether breakers may trip; a limited supply is on hand then.</summary>
    internal bool HasSupply => IsTouching || IsMixed;

    internal static TrialKind Of(string name) => Array.Find(All, kind => kind.Name == name) ?? throw new ArgumentException($"no kind of trial is called '{name}'", nameof(name));
}
