using System.Globalization;
using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Faults;

/// <summary>What a diagnosis says, in words that somebody can act on; the same in the terminal and on the page.</summary>
public static class DiagnosisWords
{
    /// <summary>Suspects that are told at length: the likeliest and its runner-up.</summary>
    public const int AtLength = 2;

    /// <summary>Suspects listed at most; the others are summed up.</summary>
    public const int Listed = 10;

    /// <summary>What holds for every reading.</summary>
    public const string Caution = "Low voltage only; ohms with the power off; never measure on mains.";

    /// <summary>Below so many volts a place has no power.</summary>
    private const double DeadVolts = 0.5;

    /// <summary>A reading of fewer bits parts nothing.</summary>
    private const double LeastBits = 0.1;

    /// <summary>How sure the answer is, in a sentence or two.</summary>
    /// <param name="set">What was read.</param>
    /// <param name="diagnosis">What it says.</param>
    public static string Verdict(ReadingSet set, Diagnosis diagnosis)
    {
        if (diagnosis.Contradiction is { } worst)
        {
            return string.Create(CultureInfo.InvariantCulture, $"No fault of the layout explains all readings: '{set.Readings[worst.Reading]}' is {worst.Sigmas:0.0} standard deviations off the best explanation. ")
                + "Take it again, check place and turnouts, and see that the layout file says what is built; the ranking below is a guess.";
        }

        if (diagnosis.NothingWrong > 0.5)
        {
            return $"The readings are those of a railway without fault ({Percent(diagnosis.NothingWrong)}).";
        }

        if (diagnosis.NotInModel > 0.5)
        {
            return $"Most likely it is nothing that rails and wires explain ({Percent(diagnosis.NotInModel)}): dirt on the rail head, wheels, a decoder, another load.";
        }

        string alike = Alike(diagnosis);
        return alike.Length > 0
            ? $"{alike} cannot be told apart by these readings; {(Parts(diagnosis) ? "the next reading parts them." : "no other with the tools on hand parts them. Open or mend the first, then look whether the fault has gone.")}"
            : string.Create(CultureInfo.InvariantCulture, $"Uncertainty left: {diagnosis.Bits:0.0} bits.");
    }

    /// <summary>What is odd about the question itself, a place that would be dead without any fault; and what was not weighed.</summary>
    /// <param name="set">What was read.</param>
    /// <param name="diagnosis">What it says.</param>
    public static IEnumerable<string> Remarks(ReadingSet set, Diagnosis diagnosis) => set.Readings.Zip(diagnosis.Readings)
        .Where(one => one.First is MeterReading.Running or MeterReading.Volts && one.Second.Healthy < DeadVolts)
        .Select(one => $"'{one.First}': no power reaches this place even without a fault, as turnouts and switches are said to stand. Say how they stood: 'when T1.diverging'.")
        .Concat(diagnosis.PairsMissed > 0 ? [$"Pairs of faults that were not weighed would take {Percent(diagnosis.PairsMissed)} of these figures at most."] : []);

    /// <summary>Where an explanation is: its part, or both.</summary>
    /// <param name="ranked">The explanation.</param>
    public static string Place(RankedFault ranked) => string.Join(" and ", ranked.Parts.Select(part => part.Element.Place));

    /// <summary>What is wrong there.</summary>
    /// <param name="ranked">The explanation.</param>
    public static string State(RankedFault ranked) => string.Join(" and ", ranked.Parts.Select(State));

    /// <summary>From where it is reached.</summary>
    /// <param name="ranked">The explanation.</param>
    public static string From(RankedFault ranked) => string.Join(" and ", ranked.Parts.Select(part => Of(part.Element.Reach)).Distinct());

    /// <summary>What a fault is, with its resistance.</summary>
    /// <param name="fault">The fault.</param>
    public static string State(Fault fault)
    {
        string what = FaultAdvice.Of(fault.Element.Kind, fault.State).What;
        return fault is not { Ohms: { } ohms, LeastOhms: { } least, MostOhms: { } most } ? what
            : ohms >= least && ohms <= most ? $"{what}, {Ohms(ohms)} ({Ohms(least)} to {Ohms(most)})"
            : $"{what}, {Ohms(least)} to {Ohms(most)}";
    }

    /// <summary>Probability of all explanations beyond those that are listed.</summary>
    /// <param name="diagnosis">What the readings say.</param>
    /// <param name="listed">How many are listed.</param>
    public static double Others(Diagnosis diagnosis, int listed) => diagnosis.Unlisted + diagnosis.Faults.Skip(listed).Sum(fault => fault.Probability);

    /// <summary>A probability as a percentage with as many digits as mean something.</summary>
    /// <param name="probability">From 0 to 1.</param>
    public static string Percent(double probability) => probability switch
    {
        >= 0.999 => "> 99.9 %",
        >= 0.99 => string.Create(CultureInfo.InvariantCulture, $"{Math.Floor(1000 * probability) / 10:0.0} %"),
        >= 0.1 => string.Create(CultureInfo.InvariantCulture, $"{100 * probability:0} %"),
        >= 0.001 => string.Create(CultureInfo.InvariantCulture, $"{100 * probability:0.0} %"),
        _ => "< 0.1 %",
    };

    /// <summary>From where somebody works.</summary>
    /// <param name="reach">From where.</param>
    public static string Of(Reach reach) => reach == Reach.Above ? "above" : "below";

    /// <summary>What a reading tells: <c>0.97 bits</c>.</summary>
    /// <param name="next">The reading.</param>
    public static string Bits(NextReading next) => string.Create(CultureInfo.InvariantCulture, $"{next.Bits:0.00} bits");

    /// <summary>What a reading takes: <c>2 min</c>.</summary>
    /// <param name="next">The reading.</param>
    public static string Minutes(NextReading next) => string.Create(CultureInfo.InvariantCulture, $"{next.Minutes:0.#} min");

    /// <summary>A reading to be made, with its minutes and from where.</summary>
    /// <param name="next">The reading.</param>
    public static string Of(NextReading next) => $"{next.Words} ({Minutes(next)}, from {Of(next.Reach)})";

    /// <summary>What a reading shows or ought to show, in its unit.</summary>
    /// <param name="reading">The reading.</param>
    /// <param name="value">Volts, ohms or amperes, finite.</param>
    public static string Value(MeterReading reading, double value) => reading switch
    {
        MeterReading.Ohms or MeterReading.Continuity => value >= 1e6 ? "open" : Ohms(ElectricResistance.FromOhms(value)),
        MeterReading.Amps or MeterReading.Breaker => string.Create(CultureInfo.InvariantCulture, $"{value:F2} A"),
        _ => value < 0.1 ? string.Create(CultureInfo.InvariantCulture, $"{1000 * value:F0} mV") : string.Create(CultureInfo.InvariantCulture, $"{value:F2} V"),
    };

    /// <summary>How far a reading is off the best explanation: <c>1.2 σ</c>.</summary>
    /// <param name="fit">The reading against expectation.</param>
    public static string Off(ReadingFit fit) => string.Create(CultureInfo.InvariantCulture, $"{fit.Sigmas:0.0} σ");

    /// <summary>Whether a reading that is suggested tells anything worth its minutes.</summary>
    private static bool Parts(Diagnosis diagnosis) => diagnosis.Next.Any(next => next.Bits >= LeastBits);

    /// <summary>Letters of the explanations that read the same as the likeliest; empty where there is only that one.</summary>
    private static string Alike(Diagnosis diagnosis)
    {
        string[] letters = [.. SuspectLetters.Listed(diagnosis).Take(SuspectLetters.Most).Index()
            .Where(fault => fault.Item.Group == diagnosis.Faults[0].Group).Select(fault => SuspectLetters.Of(fault.Index))];
        return letters.Length > 1 ? $"{string.Join(", ", letters[..^1])} and {letters[^1]}" : "";
    }

    private static string Ohms(ElectricResistance resistance) => resistance.Ohms switch
    {
        >= 1000 => string.Create(CultureInfo.InvariantCulture, $"{resistance.Ohms / 1000:0.#} kohm"),
        >= 10 => string.Create(CultureInfo.InvariantCulture, $"{resistance.Ohms:0} ohm"),
        _ => string.Create(CultureInfo.InvariantCulture, $"{resistance.Ohms:0.##} ohm"),
    };
}
