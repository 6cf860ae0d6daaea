using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Faults.Tests.Exact;

/// <summary>How a diagnosis writes figures and says how sure it is.</summary>
public sealed class DiagnosisWordTests
{
    private static readonly FaultElement Joint = new(FaultElementKind.Joiner, "joint a", Reach.Above), Tap = new(FaultElementKind.Feeder, "feeder f1", Reach.Below);

    [Theory]
    [InlineData(1, "> 99.9 %")]
    [InlineData(0.999, "> 99.9 %")]
    [InlineData(0.9989, "99.8 %")]
    [InlineData(0.99, "99.0 %")]
    [InlineData(0.98, "98 %")]
    [InlineData(0.1, "10 %")]
    [InlineData(0.0999, "10.0 %")]
    [InlineData(0.001, "0.1 %")]
    [InlineData(0.00099, "< 0.1 %")]
    [InlineData(0, "< 0.1 %")]
    public void A_probability_has_as_many_digits_as_mean_something_and_never_rounds_up_to_certainty(double probability, string said) =>
        Assert.Equal(said, DiagnosisWords.Percent(probability));

    [Theory]
    [InlineData(0.0994, "99 mV")]
    [InlineData(0.1, "0.10 V")]
    [InlineData(14.456, "14.46 V")]
    public void Volts_below_a_tenth_are_told_in_millivolts(double volts, string said) =>
        Assert.Equal(said, DiagnosisWords.Value(Sentence("14.4 V at spur-3@0.5 m"), volts));

    [Theory]
    [InlineData(0.125, "0.13 ohm")]
    [InlineData(9.994, "9.99 ohm")]
    [InlineData(10, "10 ohm")]
    [InlineData(999, "999 ohm")]
    [InlineData(1000, "1 kohm")]
    [InlineData(999_999, "1000 kohm")]
    [InlineData(1e6, "open")]
    public void Ohms_are_rounded_by_size_and_open_from_a_megohm_on(double ohms, string said) =>
        Assert.Equal(said, DiagnosisWords.Value(Sentence("0.3 ohm from spur-1.a/right to spur-3.a/right"), ohms));

    [Fact]
    public void Currents_of_a_breaker_are_told_in_amperes() => Assert.Equal("0.05 A", DiagnosisWords.Value(new MeterReading.Breaker("east", true), 0.05));

    [Fact]
    public void Explanations_of_two_parts_name_both_and_each_way_to_reach_them_once()
    {
        RankedFault both = Ranked(0.4, 0, new(Joint, FaultState.Open), new(Tap, FaultState.Open));
        Assert.Equal(("joint a and feeder f1", "above and below"), (DiagnosisWords.Place(both), DiagnosisWords.From(both)));
        RankedFault above = Ranked(0.4, 0, new(Joint, FaultState.Open), new(Joint with { Place = "joint b" }, FaultState.Open));
        Assert.Equal("above", DiagnosisWords.From(above));
    }

    [Theory]
    [InlineData(5, 2, 9, ", 5 ohm (2 ohm to 9 ohm)")]
    [InlineData(2, 2, 9, ", 2 ohm (2 ohm to 9 ohm)")]
    [InlineData(9, 2, 9, ", 9 ohm (2 ohm to 9 ohm)")]
    [InlineData(1.9, 2, 9, ", 2 ohm to 9 ohm")]
    [InlineData(9.1, 2, 9, ", 2 ohm to 9 ohm")]
    public void A_resistance_is_told_with_its_interval_and_alone_where_it_lies_outside(double fits, double least, double most, string said)
    {
        Fault fault = new(Joint, FaultState.HighResistance)
        {
            Ohms = ElectricResistance.FromOhms(fits),
            LeastOhms = ElectricResistance.FromOhms(least),
            MostOhms = ElectricResistance.FromOhms(most),
        };
        Assert.Equal($"{FaultAdvice.Of(Joint.Kind, fault.State).What}{said}", DiagnosisWords.State(fault));
    }

    [Fact]
    public void Others_are_those_beyond_the_list_and_those_that_were_never_listed()
    {
        Diagnosis diagnosis = Of(0, 0, Ranked(0.5, 0, new Fault(Joint, FaultState.Open)), Ranked(0.2, 1, new Fault(Joint, FaultState.Open)), Ranked(0.1, 2, new Fault(Joint, FaultState.Open)));
        Assert.Equal(0.3 + 0.05, DiagnosisWords.Others(diagnosis with { Unlisted = 0.05 }, 1), 1e-12);
        Assert.Equal(0.05, DiagnosisWords.Others(diagnosis with { Unlisted = 0.05 }, 3), 1e-12);
    }

    [Theory]
    [InlineData(0.6, 0.3, "The readings are those of a railway without fault (60 %).")]
    [InlineData(0.5, 0.4, "Uncertainty left: 1.2 bits.")]
    [InlineData(0.3, 0.6, "Most likely it is nothing that rails and wires explain (60 %): dirt on the rail head, wheels, a decoder, another load.")]
    [InlineData(0.4, 0.5, "Uncertainty left: 1.2 bits.")]
    public void What_is_more_likely_than_not_is_said(double nothing, double outside, string said) =>
        Assert.Equal(said, DiagnosisWords.Verdict(ReadingSet.None, Of(nothing, outside, Ranked(0.1, 0, new Fault(Joint, FaultState.Open)))));

    [Fact]
    public void A_reading_that_nothing_explains_is_named_before_all_else()
    {
        ReadingSet set = ReadingSet.None with { Readings = [Sentence("14.4 V at spur-3@0.5 m"), Sentence("5 V at spur-3@0.5 m under 0.5 A")] };
        string verdict = DiagnosisWords.Verdict(set, Of(0.9, 0, Ranked(0.1, 0, new Fault(Joint, FaultState.Open))) with { Contradiction = new(1, 6.34) });
        Assert.StartsWith($"No fault of the layout explains all readings: '{set.Readings[1]}' is 6.3 standard deviations off the best explanation.", verdict, StringComparison.Ordinal);
    }

    [Fact]
    public void Places_that_are_dead_without_a_fault_and_pairs_that_were_not_weighed_are_remarked_on()
    {
        ReadingSet set = ReadingSet.None with { Readings = [Sentence("14.4 V at spur-3@0.5 m")] };
        Diagnosis diagnosis = Of(0, 0, Ranked(0.1, 0, new Fault(Joint, FaultState.Open)));
        Assert.Empty(DiagnosisWords.Remarks(set, diagnosis with { Readings = [new(14.4, 0.5, 0, 0)] }));
        Assert.Contains("no power reaches this place even without a fault", Assert.Single(DiagnosisWords.Remarks(set, diagnosis with { Readings = [new(14.4, 0.49, 0, 0)] })), StringComparison.Ordinal);
        Assert.Equal(
            "Pairs of faults that were not weighed would take 2.0 % of these figures at most.",
            Assert.Single(DiagnosisWords.Remarks(ReadingSet.None, diagnosis with { PairsMissed = 0.02 })));
    }

    private static MeterReading Sentence(string text) => LayoutWords.Sentence(SmallLayout.Layout, text).Value!;

    private static RankedFault Ranked(double probability, int group, params Fault[] parts) => new([.. parts], probability) { Predicted = [], Group = group, Confirm = null };

    private static Diagnosis Of(double nothing, double outside, params RankedFault[] faults) => new()
    {
        Faults = [.. faults],
        NothingWrong = nothing,
        NotInModel = outside,
        Unlisted = 0,
        PairsMissed = 0,
        Bits = 1.24,
        Readings = [],
        Contradiction = null,
        Next = [],
    };
}
