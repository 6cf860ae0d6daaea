using Sylvan.Data.Csv;
using WireUp.Layouts;

namespace WireUp.Documents.Tests.Schedules.Exact;

public sealed class ScheduleCsvTests
{
    [Fact]
    public void One_row_a_wire_under_one_row_of_names()
    {
        string[] lines = Schedule.Of(TestLayouts.Balloon).ToCsv().TrimEnd('\n').Split('\n');

        Assert.Equal("id,kind,district,leg,from,to,wire,length-mm,cut-mm,colour,taps,built", lines[0]);
        Assert.Equal("east:1/A,bus,east,A,main,P1,2.5 mm2,800,900,RD,,no", lines[1]);
        Assert.Equal("turn:1/B,bus,turn,B,main,Q2,1.5 mm2,4300,4580,BN,Q1@2600,no", lines[4]);
        Assert.Equal(11, lines.Length);
    }

    [Theory]
    [InlineData("=HYPERLINK(\"http://x\")")]
    [InlineData("+1")]
    [InlineData("-1")]
    [InlineData("@SUM(A1)")]
    [InlineData("\t=1")]
    public void A_name_that_looks_like_a_formula_is_plain_text(string name)
    {
        Layout balloon = TestLayouts.Balloon;
        Feeder feeder = balloon.Wiring.Feeders[0] with { Name = name };
        Layout layout = balloon with { Wiring = balloon.Wiring with { Feeders = [feeder], Buses = [] } };

        using CsvDataReader csv = CsvDataReader.Create(new StringReader(Schedule.Of(layout).ToCsv()));

        Assert.True(csv.Read());
        Assert.Equal("'" + name + "/A", csv.GetString(0));
    }

    [Theory]
    [InlineData("a,b")]
    [InlineData("say \"hi\"")]
    [InlineData("two\nlines")]
    public void Commas_quotes_and_line_ends_come_back_as_they_were(string name)
    {
        Layout balloon = TestLayouts.Balloon;
        Feeder feeder = balloon.Wiring.Feeders[0] with { Name = name };
        Layout layout = balloon with { Wiring = balloon.Wiring with { Feeders = [feeder], Buses = [] } };

        using CsvDataReader csv = CsvDataReader.Create(new StringReader(Schedule.Of(layout).ToCsv()));

        Assert.True(csv.Read());
        Assert.Equal(name + "/A", csv.GetString(0));
    }
}
