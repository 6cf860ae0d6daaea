using System.Globalization;
using System.Text;
using UnitsNet;
using WireUp.Faults.Tests.Support;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Faults.Tests.Approved;

/// <summary>
/// Whole diagnoses of small railways, as they are known to be: suspects with their probabilities, what each reading ought to show, what
/// to measure next; the parts that can fail, the yearly survey, and the advice for every fault.
/// </summary>
public sealed class DiagnosisTextTests
{
    private const string Folder = "tests/WireUp.Faults.Tests/Approved";

    private const ReadingTools Meter = ReadingTools.Volts | ReadingTools.Ohms | ReadingTools.Load;

    private static readonly Layout Branch = ExampleLayouts.Sample("slate-branch");

    /// <summary>Each case: a name, the layout, the tools on hand, whether pairs are weighed, and the readings.</summary>
    private static readonly (string Name, Layout Layout, ReadingTools Tools, bool Pairs, string[] Readings)[] Cases =
    [
        ("nothing read", SmallLayout.Layout, Meter, false, []),
        ("a weak spot under load", SmallLayout.Layout, Meter, false, ["14.4 V at spur-3@0.5 m", "5 V at spur-3@0.5 m under 0.5 A"]),
        ("all well under load", SmallLayout.Layout, Meter, false, ["14.4 V at spur-3@0.5 m", "14.1 V at spur-3@0.5 m under 0.5 A"]),
        ("a dead spur, eyes only", SmallLayout.Layout, ReadingTools.None, false, ["stops at spur-2@0.5 m"]),
        ("a dead spur, clamp", SmallLayout.Layout, ReadingTools.Clamp | ReadingTools.Load, false, ["stops at spur-2@0.5 m"]),
        ("readings that contradict each other", SmallLayout.Layout, Meter, false, ["0 V at spur-2@0.5 m under 0.5 A", "14.2 V at spur-3@0.5 m under 0.5 A"]),
        ("no continuity", SmallLayout.Layout, Meter, false, ["no continuity from spur-1.a/left to spur-3.a/left", "0.3 ohm from spur-1.a/right to spur-3.a/right"]),
        ("volts along a joint", SmallLayout.Layout, Meter, true, ["9 V at spur-3@0.5 m under 0.5 A", "4.7 V from spur-2.b/left to spur-3.a/right under 0.5 A at spur-3@0.5 m"]),
        ("a quarry that stops", Branch, Meter, false, ["stops at quarry-3@0.5 m when T2.diverging", "14.4 V at quarry-3@0.5 m when T2.diverging", "4.7 V at quarry-3@0.5 m under 0.5 A when T2.diverging"]),
        ("a limited supply", Branch, Meter | ReadingTools.Supply, false, ["0.4 V at quarry-3@0.5 m when T2.diverging fed with 12 V up to 1 A at booster main"]),
        ("a breaker that trips", SmallLayout.Layout, Meter | ReadingTools.Supply, false, ["short in east"]),
        ("a short, the limited supply used twice", SmallLayout.Layout, Meter | ReadingTools.Supply, false,
            ["short in east", "0.29 V at spur-1@0.5 m fed with 12 V up to 1 A at booster main", "0.05 V at spur-2@0.5 m fed with 12 V up to 1 A at booster main"]),
        ("a breaker that holds", SmallLayout.Layout, Meter, false, ["no short in east", "dead at spur-3@0.5 m", "dead at spur-2@0.5 m"]),
        ("slow, better when pressed", SmallLayout.Layout, Meter, false, ["slows at spur-3@0.5 m", "pressing at spur-2.b helps"]),
        ("slow, no better when pressed", SmallLayout.Layout, Meter, false, ["slows at spur-3@0.5 m", "pressing at spur-2.b does not help"]),
        ("amperes in a feeder", SmallLayout.Layout, Meter | ReadingTools.Clamp, false, ["0.3 A in f1/A under 0.5 A at spur-3@0.5 m", "runs at spur-1@0.5 m"]),
        ("ohms from bus to rail", SmallLayout.Layout, Meter, false, ["2 ohm from P1/A to spur-1@0.2 m/left", "0.04 ohm from P1/B to spur-1@0.2 m/right"]),
        ("few volts everywhere", SmallLayout.Layout, Meter, false, ["10.5 V at spur-1@0.5 m", "10.4 V at spur-3@0.5 m", "10.2 V at spur-3@0.5 m under 0.5 A"]),
        ("two bad joints", SmallLayout.Layout, Meter, true,
            ["7.3 V at spur-3@0.5 m under 0.5 A", "3.7 V from spur-1.b/left to spur-2.a/right under 0.5 A at spur-3@0.5 m", "3.4 V from spur-2.b/right to spur-3.a/left under 0.5 A at spur-3@0.5 m"]),
        ("a frog that is dead one way", Branch, Meter, false, ["0 V from T2/frog to T2.points/left under 0.3 A at bank-2@0.5 m when T2.diverging", "dead at T2.diverging when T2.diverging", "runs at T2.through when T2.through"]),
        ("a selector that does not switch", ExampleLayouts.Sample("two-cabs"), Meter, false, ["dead at main@0.5 m when B1.cab-a", "runs at main@0.5 m when B1.cab-b"]),
    ];

    [Fact]
    public void Diagnoses_are_as_approved()
    {
        StringBuilder text = new();
        foreach ((string name, Layout layout, ReadingTools tools, bool pairs, string[] readings) in Cases)
        {
            ReadingSet set = ReadingSet.None with
            {
                Tools = tools,
                LoadBox = ElectricCurrent.FromAmperes(0.5),
                Readings = [.. readings.Select(reading => LayoutWords.Sentence(layout, reading).Value ?? throw new InvalidOperationException(reading))],
            };
            text.Append(CultureInfo.InvariantCulture, $"# {name}\n");
            Tell(text, set, FaultSearch.Rank(layout, set, layout.FaultPriors, new() { Pairs = pairs, MostNext = 6, Most = 8 }, TestContext.Current.CancellationToken)!);
            text.Append('\n');
        }

        ApprovedText.Matches(text.ToString(), "diagnoses.txt", Folder);
    }

    [Fact]
    public void Parts_that_can_fail_and_what_is_worth_measuring_are_as_approved()
    {
        StringBuilder text = new();
        foreach (Layout layout in new[] { SmallLayout.Layout, Branch, Chain.Of(3), ExampleLayouts.Sample("trackwork/double-slip"), ExampleLayouts.Sample("trackwork/three-way"), ExampleLayouts.Sample("trackwork/lift-out"), ExampleLayouts.Sample("two-cabs") })
        {
            text.Append(CultureInfo.InvariantCulture, $"# {layout.Name}\n");
            foreach (FaultElement part in FaultSearch.Parts(layout))
            {
                text.Append(CultureInfo.InvariantCulture, $"{part.Kind}: {part.Place}, {DiagnosisWords.Of(part.Reach)}; {part.End} {part.Track} {part.Piece} {part.District} {part.BusPoint}\n");
            }

            foreach (SurveyRow row in FaultSurvey.Of(layout, layout.FaultPriors, ElectricCurrent.FromAmperes(0.5), 6, TestContext.Current.CancellationToken))
            {
                text.Append(
                    CultureInfo.InvariantCulture,
                    $"measure {row.Part.Place}: {row.Reading}, {row.Expected.Millivolts:G4} mV, suspect from {row.Suspect.Millivolts:G4} mV, {row.Probability:G4}, {row.LostVolts.Volts:G4} V, {row.Minutes:0.#} min, {row.Reach}\n");
            }

            text.Append('\n');
        }

        ApprovedText.Matches(text.ToString(), "parts.txt", Folder);
    }

    [Fact]
    public void Advice_is_as_approved() => ApprovedText.Matches(
        string.Concat(FaultTable.Rates.Select(rate => (rate.Kind, rate.State)).Distinct().Select(fault => FaultAdvice.Of(fault.Kind, fault.State) is var advice
            ? $"{fault.Kind} {fault.State}: {advice.What}\n  {advice.Look}\n  {advice.Mend}\n  {advice.Beware}\n"
            : "")),
        "advice.txt",
        Folder);

    /// <summary>Four digits of it; what is next to nothing is left over from sums and differs from machine to machine.</summary>
    private static string Figure(double value) => (Math.Abs(value) < 1e-6 ? 0 : value).ToString("G4", CultureInfo.InvariantCulture);

    private static void Tell(StringBuilder text, ReadingSet set, Diagnosis diagnosis)
    {
        text.Append(CultureInfo.InvariantCulture, $"{DiagnosisWords.Verdict(set, diagnosis)}\n");
        text.Append(CultureInfo.InvariantCulture, $"nothing {diagnosis.NothingWrong:G4}, not in model {diagnosis.NotInModel:G4}, unlisted {diagnosis.Unlisted:G4}, pairs missed {diagnosis.PairsMissed:G4}, {diagnosis.Bits:G4} bits\n");
        foreach (string remark in DiagnosisWords.Remarks(set, diagnosis)) text.Append(CultureInfo.InvariantCulture, $"{remark}\n");
        foreach ((MeterReading reading, ReadingFit fit) in set.Readings.Zip(diagnosis.Readings))
        {
            text.Append(CultureInfo.InvariantCulture, $"read {reading}: {Figure(fit.Measured)}, healthy {Figure(fit.Healthy)}, best {Figure(fit.Best)}, {DiagnosisWords.Off(fit)}\n");
        }

        foreach (RankedFault fault in diagnosis.Faults)
        {
            text.Append(
                CultureInfo.InvariantCulture,
                $"{fault.Probability:G4} {DiagnosisWords.Place(fault)}: {DiagnosisWords.State(fault)}, from {DiagnosisWords.From(fault)}; group {fault.Group}, shows {string.Join(" ", fault.Predicted.Select(Figure))}; confirm: {fault.Confirm?.Words ?? "-"}\n");
        }

        foreach (NextReading next in diagnosis.Next) text.Append(CultureInfo.InvariantCulture, $"next {DiagnosisWords.Of(next)}: {DiagnosisWords.Bits(next)}\n");
    }
}
