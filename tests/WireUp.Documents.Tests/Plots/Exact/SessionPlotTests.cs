using UnitsNet;
using WireUp.Circuits;
using WireUp.Circuits.Sessions;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Documents.Tests.Plots.Exact;

public sealed class SessionPlotTests
{
    private static readonly (SessionReport Report, LoadingComparison Loading) Evening = Run();

    [Fact]
    public void Everything_is_on_the_sheet()
    {
        Scene scene = SessionPlot.Draw(Evening.Report, Evening.Loading);
        Assert.All(scene.Shapes.OfType<Shape.Line>().SelectMany(line => line.Points), point => Assert.True(scene.Bounds.Holds(point)));
        Assert.All(scene.Texts, text => Assert.True(scene.Bounds.Holds(text.Box), text.Content));
    }

    [Fact]
    public void The_area_under_both_curves_is_the_mean_current()
    {
        Scene scene = SessionPlot.Draw(Evening.Report, Evening.Loading);
        Shape.Line[] rules = [.. scene.Shapes.OfType<Shape.Line>().Where(line => line.Style.Stroke == SceneColours.Vermilion)];
        LoadingRow[] rows = [.. Evening.Loading.Rows];
        Assert.Equal(2 * rows.Length, rules.Length);
        for (int i = 0; i < rows.Length; i++)
        {
            Shape.Line[] curves = [.. scene.Shapes.OfType<Shape.Line>().Where(line => line.Id == rows[i].Operated.Name)];
            double bottom = curves[0].Points[0].Y;
            double amperesPerMillimetre = rows[i].Rule.Amperes / (bottom - rules[2 * i].Points[0].Y);
            Assert.Equal(rows[i].Operated.Mean.Amperes, MeanHeight(curves[1], bottom) * amperesPerMillimetre, 1e-9);
            Assert.Equal(FirstMean(rows[i].Operated), MeanHeight(curves[0], bottom) * amperesPerMillimetre, 1e-9);
        }
    }

    private static double FirstMean(SessionCurrent current)
    {
        double end = Evening.Report.Options.Length.Seconds, charge = 0;
        for (int i = 0; i < current.FirstSession.Length; i++)
        {
            double until = i + 1 < current.FirstSession.Length ? current.FirstSession[i + 1].At.Seconds : end;
            charge += (until - current.FirstSession[i].At.Seconds) * current.FirstSession[i].Current.Amperes;
        }

        return charge / end;
    }

    private static double MeanHeight(Shape.Line curve, double bottom)
    {
        double area = 0;
        for (int i = 1; i < curve.Points.Length; i++)
        {
            area += (curve.Points[i].X - curve.Points[i - 1].X) * (bottom - ((curve.Points[i].Y + curve.Points[i - 1].Y) / 2));
        }

        return area / (curve.Points[^1].X - curve.Points[0].X);
    }

    private static (SessionReport Report, LoadingComparison Loading) Run()
    {
        Layout layout = LayoutFile.Read(RepoFiles.ReadText("sample-layouts/home-yard.layout.yaml"), "home-yard").Layout!;
        RailGraph graph = RailGraph.Build(layout);
        SessionAnswer answer = SessionAnalysis.Run(graph, new SessionOptions { Length = Duration.FromMinutes(20), MostSessions = 20 });
        SessionReport report = ((SessionAnswer.Simulated)answer).Report;
        return (report, LoadingComparison.Of(graph, PowerAnalysis.Solve(graph, PowerOptions.Default), report));
    }
}
