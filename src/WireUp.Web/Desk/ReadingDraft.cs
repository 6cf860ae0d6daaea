using System.Collections.Immutable;
using System.Globalization;
using WireUp.Layouts;

namespace WireUp.Web.Desk;

/// <summary>A reading as it is being said in a form.</summary>
/// <param name="Kind">The word of its kind.</param>
internal sealed record ReadingDraft(string Kind)
{
    /// <summary>Everything that can be said, by its word.</summary>
    public static readonly ImmutableArray<(string Word, string Title)> Kinds =
    [
        ("volts", "volts across the rails"),
        ("along", "volts from point to point"),
        ("ohms", "ohms, power off"),
        ("continuity", "continuity, power off"),
        ("amps", "amperes in a wire"),
        ("runs", "a train runs as anywhere"),
        ("slows", "a train slows, or its lights dim"),
        ("stops", "a train stops"),
        ("dead", "all dead: no light, no sound"),
        ("short", "a short in a district"),
        ("pressing", "pressing or wiggling"),
        (OwnWords, "a sentence of your own"),
    ];

    private const string OwnWords = "sentence";

    /// <summary>What the meter shows; a bare number has the unit of the kind.</summary>
    public string Value { get; init; } = "";

    /// <summary>Whether it conducts, trips or helps.</summary>
    public bool IsYes { get; init; } = true;

    /// <summary>The place, the first point, the wire, the district, or the whole sentence.</summary>
    public string At { get; init; } = "";

    /// <summary>The second point.</summary>
    public string To { get; init; } = "";

    /// <summary>What the load draws, empty for none; a bare number is amperes.</summary>
    public string Load { get; init; } = "";

    /// <summary>Where the load stands; empty for the place of the reading.</summary>
    public string LoadAt { get; init; } = "";

    public bool IsSentence => Kind == OwnWords;

    public bool IsBetweenPoints => Kind is "along" or "ohms" or "continuity";

    public bool HasValue => Unit.Length > 0;

    public bool HasLoad => Kind is "volts" or "along" or "amps";

    public bool IsYesOrNo => Kind is "continuity" or "short" or "pressing";

    private string Unit => Kind switch { "volts" or "along" => "V", "ohms" => "ohm", "amps" => "A", _ => "" };

    /// <summary>A sentence that is there already, to be changed.</summary>
    public static ReadingDraft Said(MeterReading reading) => new(OwnWords) { At = reading.ToString()! };

    /// <summary>A reading that is yet to be made: all but what the meter will show. How the turnouts stand is no part of it.</summary>
    public static ReadingDraft ToMake(MeterReading reading) => reading switch
    {
        { Supply: not null } => Said(reading),
        MeterReading.Volts volts => new ReadingDraft("volts") { At = volts.At.ToString()! }.Under(volts.Load, volts.At),
        MeterReading.VoltsAlong volts => new ReadingDraft("along") { At = volts.From.ToString()!, To = volts.To.ToString()! }.Under(volts.Load, null),
        MeterReading.Ohms ohms => new("ohms") { At = ohms.From.ToString()!, To = ohms.To.ToString()! },
        MeterReading.Continuity conducts => new("continuity") { At = conducts.From.ToString()!, To = conducts.To.ToString()! },
        MeterReading.Amps amps => new ReadingDraft("amps") { At = amps.In.ToString()! }.Under(amps.Load, null),
        MeterReading.Running running => new("runs") { At = running.At.ToString()! },
        MeterReading.Breaker breaker => new("short") { At = breaker.District },
        MeterReading.Pressed pressed => new("pressing") { At = pressed.At.ToString()! },
        _ => throw new ArgumentOutOfRangeException(nameof(reading), reading, "not a kind of reading"),
    };

    /// <summary>The sentence, which <see cref="LayoutWords.Sentence"/> reads.</summary>
    /// <param name="thrown">How turnouts and switches stand, where not in their first position.</param>
    public string Sentence(IEnumerable<KeyValuePair<PieceId, string>> thrown)
    {
        string settings = string.Join(", ", thrown.Select(pair => new Setting(pair.Key, pair.Value)));
        return settings.Length == 0 || At.Contains(" when ", StringComparison.Ordinal) ? Main
            : Main.Contains(" fed with ", StringComparison.Ordinal) ? Main.Replace(" fed with ", $" when {settings} fed with ", StringComparison.Ordinal)
            : $"{Main} when {settings}";
    }

    private string Main => Kind switch
    {
        "volts" => $"{With(Value, Unit)} at {At.Trim()}{Loaded}",
        "along" => $"{With(Value, Unit)} from {At.Trim()} to {To.Trim()}{Loaded}",
        "ohms" => $"{With(Value, Unit)} from {At.Trim()} to {To.Trim()}",
        "continuity" => $"{(IsYes ? "" : "no ")}continuity from {At.Trim()} to {To.Trim()}",
        "amps" => $"{With(Value, Unit)} in {At.Trim()}{Loaded}",
        "short" => $"{(IsYes ? "" : "no ")}short in {At.Trim()}",
        "pressing" => $"pressing at {At.Trim()} {(IsYes ? "helps" : "does not help")}",
        OwnWords => At.Trim(),
        _ => $"{Kind} at {At.Trim()}",
    };

    private string Loaded => Load.Trim().Length == 0 ? "" : $" under {With(Load, "A")}{(LoadAt.Trim().Length == 0 ? "" : $" at {LoadAt.Trim()}")}";

    private ReadingDraft Under(ReadingLoad? load, ReadingPlace? here) => load is null ? this : this with
    {
        Load = load.Resistance is { } ohms
            ? string.Create(CultureInfo.InvariantCulture, $"{ohms.Ohms:0.###} ohm")
            : string.Create(CultureInfo.InvariantCulture, $"{load.Amps.Amperes:0.###} A"),
        LoadAt = load.At == here ? "" : load.At.ToString()!,
    };

    private static string With(string typed, string unit)
    {
        string text = typed.Trim().Replace(',', '.');
        return text.Length > 0 && text.All(letter => char.IsAsciiDigit(letter) || letter == '.') ? $"{text} {unit}" : text;
    }
}
